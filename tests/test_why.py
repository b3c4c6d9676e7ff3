from dataclasses import replace

import pytest

from planner.kitchen.document import Kitchen
from planner.quantities.types import Credit, Reason, StockUse, Supply, Trace
from planner.why import UnknownItem, close_matches, explained, trace_lines, why
from planner.wording import grams_text
from tests.kitchens.plan_food import ONION_AP
from tests.kitchens.plans import planned_kitchen, tiny_plan


def _text(item, plan=None):
    return "\n".join(trace_lines(why(planned_kitchen(), plan or tiny_plan(), item)))


def _with_need(component, **changes):
    plan = tiny_plan()
    needs = tuple(
        replace(need, **changes) if need.component == component else need
        for need in plan.quantities.needs
    )
    return replace(plan, quantities=replace(plan.quantities, needs=needs))


def _with_pull(ingredient, **changes):
    plan = tiny_plan()
    pulls = tuple(
        replace(line, **changes) if line.ingredient == ingredient else line
        for line in plan.quantities.pulls
    )
    return replace(plan, quantities=replace(plan.quantities, pulls=pulls))


def test_a_component_is_traced_from_guests_to_the_shelf():
    lines = trace_lines(why(planned_kitchen(), tiny_plan(), "diced_onion"))
    assert lines[0] == "Diced onion: make 1.79 kg today"
    assert (
        "    Onion soup, Dinner: 960 g = 800 g expected + 160 g for whole portions and buffer"
        in lines
    )
    assert (
        "      24 portions x 40 g: 40 covers x 0.5 = 20 expected; 90 % level -> 24 "
        "(20 expected + 4 buffer)"
    ) in lines
    assert "  less 60 g on hand, use by Tue 4 Mar" in lines
    assert "  Peel: 1.87 kg out of 2.07 kg, yield 90 % (source: starting guess)" in lines
    assert "    pull for the whole kitchen: 13 each = 2.08 kg, 7.5 g left over" in lines


def test_steps_run_backwards_from_what_is_wanted():
    text = _text("diced_onion")
    assert text.index("Dice: ") < text.index("Peel: ") < text.index("takes 2.07 kg of Onions")


def test_a_component_inside_another_is_traced_through_it():
    lines = trace_lines(why(planned_kitchen(), tiny_plan(), "diced_onion"))
    into = lines.index("    into Chicken stock: 111 g")
    assert lines[into + 1] == "      Chicken stock: make 3.76 kg today"
    assert lines[into + 3].startswith("          Onion soup, Dinner: 5.76 kg")


def test_what_is_weighed_out_is_not_rounded():
    text = _text("bones")
    assert "Chicken bones: pull 1.88 kg, as purchased" in text
    assert "weighed out: 1.88 kg (0.188 box)" in text
    assert "rounded up" not in text


def test_a_component_is_explained_once_and_then_referred_to():
    plan = tiny_plan()
    need = plan.quantities.needs[0]
    tomorrow = replace(need.wants[2], day=1)
    text = _text("diced_onion", _with_need("diced_onion", wants=(*need.wants, tomorrow)))
    assert text.count("recipe: one batch is taken to make 8 l") == 1
    assert "Chicken stock: make 3.76 kg, explained above" in text


def test_an_input_that_by_products_replace_is_said_so():
    need = tiny_plan().quantities.needs[1]
    inputs = tuple(
        replace(entry, grams=0.0) if entry.item == "diced_onion" else entry for entry in need.inputs
    )
    assert "takes no Diced onion: by-products stand in for all of it" in _text(
        "stock", _with_need("stock", inputs=inputs)
    )


def test_what_one_component_takes_for_several_makings_is_added_up():
    plan = tiny_plan()
    need = plan.quantities.needs[0]
    more = replace(need.wants[2], grams=100.0)
    text = _text("diced_onion", _with_need("diced_onion", wants=(*need.wants, more)))
    assert text.count("into Chicken stock") == 1
    assert "into Chicken stock: 211 g" in text


def test_credits_say_what_stands_in_for_what():
    assert "credit: 124 g of Onion ends from Diced onion, Peel stand in for Diced onion" in _text(
        "stock"
    )


def test_a_batch_that_was_measured_is_no_guess():
    document = planned_kitchen().model_dump(mode="json")
    for component in document["components"]:
        if component["id"] == "stock":
            component["makes_source"] = "weighed here, three batches"
    lines = trace_lines(why(Kitchen.model_validate(document), tiny_plan(), "stock"))
    words = "recipe: one batch makes 8 l; times 0.47 (source: weighed here, three batches)"
    assert any(words in line for line in lines)


def test_portions_add_up_where_the_expectation_is_no_whole_number():
    plan = tiny_plan()
    demands = tuple(replace(one, expected=one.expected - 0.4) for one in plan.demands)
    lines = trace_lines(why(planned_kitchen(), replace(plan, demands=demands), "diced_onion"))
    assert any("(19.6 expected, whole 20 + 4 buffer)" in line for line in lines)


def test_a_recipe_says_where_its_output_and_its_steps_yields_come_from():
    text = _text("stock")
    assert "recipe: one batch is taken to make 8 l; times 0.47 (source: starting guess)" in text
    assert "measured" not in text
    assert "Simmer: 3.76 kg out of 5.88 kg, yield 64 % (source: starting guess)" in text


def test_an_ingredient_is_traced_to_whole_units_and_what_is_left():
    trace = why(planned_kitchen(), tiny_plan(), "onion")
    assert trace.text == "Onions: pull 13 each = 2.08 kg, as purchased"
    assert trace.grams == 13 * 160
    needed, rounded, on_hand = trace.children
    assert needed.grams == pytest.approx(ONION_AP)
    assert rounded.text == (
        "rounded up: 2073 g AP -> 13 x each of 160 g = 2080 g (0.208 bag); 7.5 g left over"
    )
    assert on_hand.text == "2.07 kg on hand"


def test_supplies_are_traced_as_far_as_they_are_used():
    supplies = (
        Supply(500.0, 0, "on hand"),
        Supply(1000.0, 9 * 60, "delivery"),
        Supply(200.0, 10 * 60, "second delivery"),
    )
    text = _text("onion", _with_pull("onion", supplies=supplies, short=372.5))
    assert "500 g on hand" in text
    assert "1.00 kg delivery, there at 09:00" in text
    assert "short: 372 g" in text
    enough = (Supply(5000.0, 0, "on hand"), Supply(1000.0, 9 * 60, "delivery"))
    assert "delivery" not in _text("onion", _with_pull("onion", supplies=enough))


def test_what_nobody_counts_has_no_end():
    endless = _with_pull("onion", supplies=(Supply(float("inf"), 0, "never counted"),))
    assert "2.07 kg never counted" in _text("onion", endless)


def test_a_by_product_on_hand_is_named_so():
    plan = tiny_plan()
    need = plan.quantities.needs[1]
    inputs = tuple(
        replace(entry, credits=(Credit("onion_ends", "on hand", -1, 100.0),))
        if entry.item == "diced_onion"
        else entry
        for entry in need.inputs
    )
    text = _text("stock", _with_need("stock", inputs=inputs))
    assert "credit: 100 g of Onion ends from on hand stand in" in text


def test_what_is_served_as_it_is_names_the_dish():
    text = _text("onion", _with_pull("onion", wanted_by=(("onion_soup", 200.0),)))
    assert "Onion soup takes 200 g" in text


def test_a_by_product_is_never_pulled():
    text = _text("onion_ends")
    assert text.startswith("Onion ends: a by-product, never pulled; 124 g put to use today")
    assert "into Chicken stock" in text


def test_what_nobody_counts_is_on_no_pull_list():
    assert _text("water").startswith("Water: 3.76 kg as purchased, not on the pull list")


def _with_own_making(reason, grams=500.0, **component):
    """Diced onion made for the kitchen itself: par, a whole batch, a later day."""
    need = tiny_plan().quantities.needs[0]
    model = need.makings[0]
    own = replace(model, want=replace(model.want, reason=reason, shares=()), grams=grams)
    plan = _with_need("diced_onion", makings=(*need.makings, own), to_make=need.to_make + grams)
    document = planned_kitchen().model_dump(mode="json")
    document["components"][0].update(component)
    return "\n".join(trace_lines(why(Kitchen.model_validate(document), plan, "diced_onion")))


def test_par_is_named():
    assert "up to its par of 3 kg: 500 g more" in _with_own_making(Reason.PAR, par="3 kg")


def test_rounding_to_a_batch_is_named_with_its_rule():
    text = _with_own_making(Reason.BATCH, batch_minimum="1 kg", batch_multiple="250 g")
    assert "rounded up to a batch (at least 1 kg, in multiples of 250 g): 500 g more" in text


def test_what_is_made_for_later_days_is_named():
    assert "of it 500 g made today for later days" in _with_own_making(Reason.DAYS)


def test_a_later_days_want_names_its_day_as_the_sheets_do():
    want = replace(tiny_plan().quantities.needs[2].wants[0], day=2)
    assert "Chicken plate, Dinner, Thu 6 Mar: 3.51 kg" in _text(
        "roast_thigh", _with_need("roast_thigh", wants=(want,))
    )


def test_one_buffer_shared_by_dishes_is_told():
    want = tiny_plan().quantities.needs[2].wants[0]
    less = replace(want, grams=3400.0, shares=(replace(want.shares[0], grams=3400.0),))
    assert "26 portions x 135 g, less 110 g: dishes share one buffer" in _text(
        "roast_thigh", _with_need("roast_thigh", wants=(less,))
    )


def test_more_of_what_keeps_is_told():
    kitchen, plan = planned_kitchen(), tiny_plan()
    (need,) = [one for one in plan.quantities.needs if one.component == "diced_onion"]
    want = need.wants[0]
    more = replace(want, shares=(replace(want.shares[0], grams=want.shares[0].grams + 80),))
    changed = _with_need("diced_onion", wants=(more, *need.wants[1:]))
    rules = kitchen.rules.model_copy(update={"kept_level": 0.97})
    lines = trace_lines(why(kitchen.model_copy(update={"rules": rules}), changed, "diced_onion"))
    assert any("24 portions x 40 g, and 80 g more since it keeps: 40 covers" in x for x in lines)
    assert "since it keeps" not in _text("diced_onion", changed), "it has no level of its own"


def test_part_made_stock_is_told_apart():
    use = StockUse("roast_thigh", 900.0, "2025-03-05", after_step=1)
    assert "of it 900 g part-made on hand, done to step 1, use by Wed 5 Mar" in _text(
        "roast_thigh", _with_need("roast_thigh", stock=(use,))
    )


def test_nothing_wanted_is_said_plainly():
    plan = _with_need("roast_thigh", wants=(), makings=())
    assert _text("roast_thigh", plan) == "Roast thighs: nothing is wanted today."
    quantities = replace(tiny_plan().quantities, needs=(), pulls=())
    empty = replace(tiny_plan(), quantities=quantities)
    assert _text("onion", empty) == "Onions: nothing is wanted today."
    assert _text("onion_ends", empty) == "Onion ends: a by-product; nothing takes it today."


def test_stock_that_is_enough_is_said_plainly():
    assert "nothing to make today" in _text("stock", _with_need("stock", to_make=0.0))


def test_what_starts_on_a_later_day_is_told_apart():
    assert "not started today: 2.00 kg" in _text("stock", _with_need("stock", to_make=1760.0))


def test_components_that_take_each_other_do_not_go_round_for_ever():
    """A checked kitchen has no such loop; the trace ends all the same."""
    need = tiny_plan().quantities.needs[1]
    into_onion = replace(
        need.wants[0],
        reason=Reason.COMPONENT,
        consumer="diced_onion",
        consumer_name="Diced onion",
        shares=(),
    )
    assert "explained above" in _text("diced_onion", _with_need("stock", wants=(into_onion,)))


def test_an_unknown_id_is_an_error_with_close_matches():
    with pytest.raises(UnknownItem) as raised:
        why(planned_kitchen(), tiny_plan(), "Diced_onoin")
    assert raised.value.close[0] == "diced_onion"
    assert str(raised.value) == (
        "no ingredient or component has the id 'Diced_onoin'; did you mean diced_onion?"
    )
    with pytest.raises(KeyError, match=r"no ingredient or component has the id 'zzz'$"):
        why(planned_kitchen(), tiny_plan(), "zzz")


def test_people_find_an_item_by_its_name_too():
    with pytest.raises(UnknownItem) as raised:
        why(planned_kitchen(), tiny_plan(), "Chicken bones")
    assert raised.value.close[0] == "bones"


def test_every_component_needed_and_every_ingredient_pulled_is_explained():
    plan = tiny_plan()
    told = explained(planned_kitchen(), plan)
    assert list(told) == [
        *(need.component for need in plan.quantities.needs),
        *(line.ingredient for line in plan.quantities.pulls),
    ]
    assert told["onion"] == why(planned_kitchen(), plan, "onion")


def test_close_matches_are_few_and_best_first():
    names = {f"onion_{size}": f"Onion, {size}" for size in ("small", "large", "huge", "tiny")}
    assert close_matches("onion_lage", names)[0] == "onion_large"
    assert close_matches("Onion, huge", names)[0] == "onion_huge"
    assert len(close_matches("onion", names)) == 3
    assert close_matches(" ", names) == ()


def test_lines_are_indented_by_what_they_explain():
    trace = Trace("a", 1.0, ("book",), (Trace("b", 1.0, (), (Trace("c", 1.0),)), Trace("d", 1.0)))
    assert trace_lines(trace) == ["a (source: book)", "  b", "    c", "  d"]


@pytest.mark.parametrize(
    ("grams", "text"),
    [(0.0, "0.0 g"), (6.54, "6.5 g"), (640.2, "640 g"), (999.7, "1.00 kg"), (1865.26, "1.87 kg")],
)
def test_grams_are_written_for_people(grams, text):
    assert grams_text(grams) == text
