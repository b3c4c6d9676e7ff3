from dataclasses import replace

import pytest

from planner.causes import grams_text
from planner.quantities.types import Reason, Supply, Trace
from planner.why import UnknownItem, trace_lines, why
from tests.kitchens.plans import ONION_AP, planned_kitchen, tiny_plan


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
    assert "    Onion soup: 960 g = 800 g expected + 160 g buffer" in lines
    assert (
        "      Onion soup at Dinner: 24 portions, 960 g: 40 covers x 0.5 = 20 expected; "
        "90 % level -> 24 (20 expected, 4 buffer)"
    ) in lines
    assert "  less 60 g on hand, use by 2025-03-04" in lines
    assert "  Peel: 1.87 kg out of 2.07 kg, yield 90 % (source: starting guess)" in lines
    assert "    pull for the whole kitchen: 13 each = 2.08 kg, 7.5 g left over" in lines


def test_steps_run_backwards_from_what_is_wanted():
    text = _text("diced_onion")
    assert text.index("Dice: ") < text.index("Peel: ") < text.index("takes 2.07 kg of Onions")


def test_a_component_inside_another_is_traced_through_it():
    lines = trace_lines(why(planned_kitchen(), tiny_plan(), "diced_onion"))
    into = lines.index("    into Chicken stock: 111 g")
    assert lines[into + 1] == "      Chicken stock: make 3.76 kg today"
    assert lines[into + 3].startswith("          Onion soup: 5.76 kg")


def test_credits_say_what_stands_in_for_what():
    assert "credit: 124 g of Onion ends from Diced onion, Peel stand in for Diced onion" in _text(
        "stock"
    )


def test_a_recipe_is_measured_not_derived():
    text = _text("stock")
    assert "recipe: one batch makes 8 l, measured; 0.47 batches" in text
    assert "yield" not in text


def test_an_ingredient_is_traced_to_whole_units_and_what_is_left():
    trace = why(planned_kitchen(), tiny_plan(), "onion")
    assert trace.text == "Onions: pull 13 each, as purchased"
    assert trace.grams == 13 * 160
    needed, rounded, on_hand = trace.children
    assert needed.grams == pytest.approx(ONION_AP)
    assert "rounded up: 13 each = 2.08 kg (0.208 bag); 7.5 g left over" in rounded.text
    assert on_hand.text == "from on hand: 2.07 kg"


def test_deliveries_and_shortages_are_in_the_trace():
    supplies = (Supply(500.0, 0, "on hand"), Supply(1000.0, 9 * 60, "delivery"))
    text = _text("onion", _with_pull("onion", supplies=supplies, short=572.5))
    assert "from delivery at 09:00: 1.00 kg" in text
    assert "short: 572 g" in text


def test_what_is_served_as_it_is_names_the_dish():
    text = _text("onion", _with_pull("onion", wanted_by=(("onion_soup", 200.0),)))
    assert "Onion soup takes 200 g" in text


def test_a_by_product_is_never_pulled():
    text = _text("onion_ends")
    assert text.startswith("Onion ends: a by-product, never pulled; 124 g put to use today")
    assert "into Chicken stock" in text


def test_what_nobody_counts_is_on_no_pull_list():
    assert _text("water").startswith("Water: 3.76 kg as purchased, not on the pull list")


@pytest.mark.parametrize(
    ("reason", "words"),
    [
        (Reason.PAR, "up to par"),
        (Reason.BATCH, "rounded up to whole batches"),
        (Reason.DAYS, "for a later day, Thursday (in 2 days): 500 g"),
    ],
)
def test_par_batches_and_later_days_are_named(reason, words):
    plan = tiny_plan()
    need = plan.quantities.needs[0]
    extra = replace(
        need.wants[0], reason=reason, consumer_name="Thursday", grams=500.0, day=2, shares=()
    )
    assert words in _text("diced_onion", _with_need("diced_onion", wants=(*need.wants, extra)))


def test_nothing_wanted_is_said_plainly():
    plan = _with_need("roast_thigh", wants=())
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


def test_lines_are_indented_by_what_they_explain():
    trace = Trace("a", 1.0, ("book",), (Trace("b", 1.0, (), (Trace("c", 1.0),)), Trace("d", 1.0)))
    assert trace_lines(trace) == ["a (source: book)", "  b", "    c", "  d"]


@pytest.mark.parametrize(
    ("grams", "text"),
    [(0.0, "0.0 g"), (6.54, "6.5 g"), (640.2, "640 g"), (999.7, "1.00 kg"), (1865.26, "1.87 kg")],
)
def test_grams_are_written_for_people(grams, text):
    assert grams_text(grams) == text
