from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.kitchen.document import Kitchen
from planner.morning import PlanOptions, plan_morning
from planner.quantities.types import Supply
from planner.sheet.build import build_sheet
from planner.sheet.pieces import whole
from planner.sheet.pulls import NOT_ENOUGH, share_units
from tests.kitchens.bench import DATE, bench, cut_from, dish, food, raw, read, stock, work
from tests.kitchens.plan_food import ONION_AP
from tests.kitchens.plans import planned_kitchen, tiny_plan
from tests.sheet.changes import with_assignment, with_lot, without_tasks


def _sheet(plan=None):
    return build_sheet(planned_kitchen(), plan or tiny_plan())


def _two_peelers():
    """Half the onions are pulled by Ana: as if she peeled for the roast."""
    plan = with_lot(tiny_plan(), 0, pulls=(("onion", ONION_AP / 2),))
    return with_lot(plan, 4, pulls=(("thigh", 4680.0), ("onion", ONION_AP / 2)))


def test_the_kitchens_list_is_the_quantities_own():
    pulls = {item.ingredient: item for item in _sheet().pulls}
    onion = pulls["onion"]
    assert (onion.units, onion.unit, onion.pack) == (13, "each", "bag")
    assert onion.grams == pytest.approx(ONION_AP)
    assert onion.left_over == pytest.approx(13 * 160 - ONION_AP)


def test_each_cook_pulls_for_the_lots_they_start():
    ana, ben = _sheet().cooks
    assert [item.ingredient for item in ben.pulls] == ["onion"]
    assert [item.ingredient for item in ana.pulls] == ["diced_onion", "bones", "thigh"]


def test_one_trip_takes_prepared_stock_too():
    stock = _sheet().cooks[0].pulls[0]
    assert (stock.grams, stock.storage) == (60.0, "cold")
    assert stock.note == "prepared stock, use by Tue 4 Mar"


@pytest.mark.parametrize(
    ("hold", "tcs", "storage"),
    [("cold", True, "cold"), (None, True, "cold"), (None, False, "ambient"), ("hot", True, "hot")],
)
def test_part_made_stock_waits_where_its_last_step_says(
    hold: str | None, tcs: bool, storage: str
) -> None:
    """Beans soaked over night in the cold are no hot food, though their stew will be."""
    file = bench(
        ingredients=[food("bean")],
        operations=[work("soak"), work("stew")],
        components=[
            cut_from(
                "bean",
                "stew",
                {"operation": "soak", "hold": hold},
                "stew",
                storage="hot",
                tcs=tcs,
            )
        ],
        dishes=[dish("bowl", {"stew": "100 g"})],
        prepared=[stock("stew", "1 kg", after_step=1)],
    )
    kitchen = read(file)
    plan = plan_morning(kitchen, DATE, PlanOptions(seconds=1.0))
    (cook,) = build_sheet(kitchen, plan).cooks
    assert [(item.name, item.storage) for item in cook.pulls] == [("Stew after Soak", storage)]


def test_shares_of_two_cooks_add_up_to_the_kitchens_units():
    sheet = _sheet(_two_peelers())
    shares = [item for cook in sheet.cooks for item in cook.pulls if item.ingredient == "onion"]
    assert [item.grams for item in shares] == [pytest.approx(ONION_AP / 2)] * 2
    assert sorted(item.units for item in shares) == [6, 7]
    assert [item.note for item in shares if item.units == 6] == ["rest from another cook's pull"]


def test_a_delivery_is_told_by_its_time():
    plan = tiny_plan()
    onion, *rest = plan.quantities.pulls
    late = replace(
        onion, supplies=(Supply(500.0, 0, "on hand"), Supply(1600.0, 9 * 60, "delivery"))
    )
    plan = replace(plan, quantities=replace(plan.quantities, pulls=(late, *rest)))
    sheet = _sheet(plan)
    assert sheet.cooks[1].pulls[0].note == "delivery 09:00"
    assert {item.note for item in sheet.pulls if item.ingredient == "onion"} == {"delivery 09:00"}


def test_a_delivery_that_is_not_needed_is_not_told():
    plan = tiny_plan()
    onion, *rest = plan.quantities.pulls
    enough = replace(
        onion, supplies=(Supply(5000.0, 0, "on hand"), Supply(1600.0, 9 * 60, "delivery"))
    )
    plan = replace(plan, quantities=replace(plan.quantities, pulls=(enough, *rest)))
    assert _sheet(plan).cooks[1].pulls[0].note == ""


def test_a_shortage_is_told():
    plan = tiny_plan()
    onion, *rest = plan.quantities.pulls
    plan = replace(
        plan, quantities=replace(plan.quantities, pulls=(replace(onion, short=800.0), *rest))
    )
    assert NOT_ENOUGH in _sheet(plan).cooks[1].pulls[0].note


def test_food_for_a_lot_that_is_not_done_is_on_no_cooks_list():
    plan = tiny_plan()
    kept = tuple(one for one in plan.solution.timetable.assignments if one.task not in (5, 6))
    timetable = replace(plan.solution.timetable, assignments=kept)
    plan = replace(plan, solution=replace(plan.solution, timetable=timetable))
    assert "thigh" not in {item.ingredient for item in _sheet(plan).cooks[0].pulls}


def test_the_pull_follows_the_cook_of_the_first_task():
    plan = with_assignment(tiny_plan(), 0, worker=0)
    assert "onion" in {item.ingredient for item in _sheet(plan).cooks[0].pulls}


@given(
    st.dictionaries(st.integers(0, 8), st.floats(0.001, 200), min_size=1, max_size=6),
    st.integers(0, 3),
)
def test_whole_units_never_exceed_what_the_kitchen_pulls(wanted, extra):
    most = whole(sum(wanted.values())) + extra
    units = share_units(wanted, most)
    assert sum(units.values()) == whole(sum(wanted.values()))
    assert all(abs(units[worker] - wanted[worker]) <= 1 + 1e-6 for worker in wanted)


def _with_ingredient(item, **changes):
    document = planned_kitchen().model_dump(mode="json")
    for ingredient in document["ingredients"]:
        if ingredient["id"] == item:
            ingredient.update(changes)
    return Kitchen.model_validate(document)


def test_food_that_must_stay_cold_says_when_each_batch_first_needs_it():
    kitchen = _with_ingredient("thigh", tcs=True)
    sheet = build_sheet(kitchen, tiny_plan())
    thigh = next(one for one in sheet.cooks[0].pulls if one.ingredient == "thigh")
    (start, grams), *more = thigh.uses
    assert not more
    roast = next(
        batch
        for batch in sheet.cooks[0].batches
        if batch.operation == "roast" and batch.part == "work"
    )
    assert (start, grams) == (roast.work_start, 4680.0)
    assert {one.uses for one in sheet.pulls if one.ingredient == "thigh"} == {thigh.uses}


def test_food_that_keeps_by_itself_has_no_time_of_its_own():
    kitchen = _with_ingredient("onion", tcs=False)
    sheet = build_sheet(kitchen, tiny_plan())
    assert [one.uses for one in sheet.cooks[1].pulls] == [()]


def test_raw_animal_food_comes_after_the_rest_of_its_place():
    kitchen = _with_ingredient("thigh", raw_animal="poultry", name="A thigh", storage="cold")
    pulls = build_sheet(kitchen, tiny_plan()).cooks[0].pulls
    cold = [(one.ingredient, one.raw_animal) for one in pulls]
    assert cold.index(("diced_onion", False)) < cold.index(("thigh", True))


def test_what_a_dish_takes_as_it_is_goes_straight_to_the_line():
    """Cream for a plate of pears: no batch is made of it, so no cook's list has it."""
    file = bench(
        ingredients=[food("pear"), food("cream", tcs=True)],
        operations=[work("cut")],
        components=[cut_from("pear", "pears", "cut")],
        dishes=[dish("plate", {"pears": "100 g", "cream": "20 g"})],
    )
    kitchen = read(file)
    plan = plan_morning(kitchen, DATE, PlanOptions(seconds=1.0))
    sheet = build_sheet(kitchen, plan)
    (cream,) = sheet.straight
    total = sum(one.total for one in plan.demands if one.date == DATE)
    assert (cream.item, cream.grams) == ("cream", pytest.approx(20 * total))
    (service,) = [one for one in sheet.services if one.date == DATE]
    assert cream.dish == f"Plate ({service.name})"
    assert cream.due == service.due
    assert all(one.ingredient != "cream" for cook in sheet.cooks for one in cook.pulls)
    (listed,) = [one for one in sheet.pulls if one.ingredient == "cream"]
    assert listed.uses == ((cream.due, cream.grams),)
    assert listed.grams == pytest.approx(cream.grams)


def test_finished_stock_that_a_dish_takes_goes_straight_to_the_line_too():
    """Half a kilo of pears of yesterday is on hand; the batch of today makes the rest."""
    file = bench(
        ingredients=[food("pear")],
        operations=[work("cut")],
        components=[cut_from("pear", "pears", "cut")],
        dishes=[dish("plate", {"pears": "100 g"})],
        prepared=[stock("pears", "500 g")],
    )
    kitchen = read(file)
    sheet = build_sheet(kitchen, plan_morning(kitchen, DATE, PlanOptions(seconds=1.0)))
    (pears,) = sheet.straight
    assert (pears.item, pears.prepared) == ("pears", True)
    assert pears.grams == pytest.approx(500)
    assert pears.use_by is not None
    (batch,) = [one for cook in sheet.cooks for one in cook.batches]
    ((_dish, _expected, _buffer, total),) = sheet.services[0].dishes
    assert batch.grams_out + pears.grams == pytest.approx(100 * total)


def _plated_and_cut(**stocks):
    """A plate of cut pears with cream as it is, and a bowl of cut plums; ten covers of each."""
    file = bench(
        ingredients=[food("pear"), food("plum"), food("cream", tcs=True)],
        operations=[work("cut")],
        components=[cut_from("pear", "pears", "cut"), cut_from("plum", "plums", "cut")],
        dishes=[
            dish("plate", {"pears": "100 g", "cream": "20 g"}),
            dish("bowl", {"plums": "100 g"}),
        ],
        raw_stock=[raw(item, amount) for item, amount in stocks.items()],
    )
    kitchen = read(file)
    plan = plan_morning(kitchen, DATE, PlanOptions(seconds=1.0, remedies=False))
    return plan, build_sheet(kitchen, plan)


def test_nothing_is_pulled_for_a_dish_that_is_not_made():
    """Without pears no plate is served, and the cream for it stays where it is."""
    plan, sheet = _plated_and_cut(plum="5 kg", cream="1 kg")
    assert [one.ingredient for one in sheet.pulls] == ["plum"]
    assert sheet.straight == ()
    (service,) = sheet.services
    total = next(total for name, _, _, total in service.dishes if name == "Plate")
    left = {one.item: one for one in sheet.left_out}
    assert {item: one.grams for item, one in left.items()} == {
        "cream": pytest.approx(20 * total),
        "pear": pytest.approx(100 * total),
    }
    assert {one.wanted_for for one in left.values()} == {(f"Plate ({service.name})",)}
    wanted = {line.ingredient: line.need.grams for line in plan.quantities.pulls}
    assert wanted["pear"] == pytest.approx(100 * total), "the plan file tells all that is wanted"


def test_the_kitchens_list_is_the_cooks_lists_and_what_goes_straight_to_the_line():
    """With 70 g of cream three plates are served: what is pulled is on hand, the rest left out."""
    _plan, sheet = _plated_and_cut(pear="5 kg", plum="5 kg", cream="70 g")
    (cream,) = sheet.straight
    assert cream.grams == pytest.approx(60)
    pulled = {one.ingredient: one.grams for one in sheet.pulls}
    by_cooks = {one.ingredient: one.grams for cook in sheet.cooks for one in cook.pulls}
    assert pulled == {**by_cooks, "cream": pytest.approx(60)}
    (left,) = [one for one in sheet.left_out if one.item == "cream"]
    (service,) = sheet.services
    total = next(total for name, _, _, total in service.dishes if name == "Plate")
    assert left.grams == pytest.approx(20 * total - 60)


def test_prepared_stock_of_a_dish_that_is_not_served_stays_on_its_shelf():
    """Syrup of yesterday for plates of pears, and no pears."""
    file = bench(
        ingredients=[food("pear"), food("sugar")],
        operations=[work("cut")],
        components=[cut_from("pear", "pears", "cut"), cut_from("sugar", "syrup", "cut")],
        dishes=[dish("plate", {"pears": "100 g", "syrup": "10 g"})],
        prepared=[stock("syrup", "1 kg")],
        raw_stock=[raw("sugar", "1 kg")],
    )
    kitchen = read(file)
    plan = plan_morning(kitchen, DATE, PlanOptions(seconds=1.0, remedies=False))
    sheet = build_sheet(kitchen, plan)
    assert sheet.straight == ()
    assert [(one.item, one.prepared) for one in sheet.left_out] == [
        ("pear", False),
        ("syrup", True),
    ]


def test_what_is_left_over_is_never_more_than_there_is():
    """Thirteen onions would weigh 2080 g; there are 2074 g of them."""
    plan = tiny_plan()
    onion, *rest = plan.quantities.pulls
    scarce = replace(onion, supplies=(Supply(2074.0, 0, "on hand"),))
    plan = replace(plan, quantities=replace(plan.quantities, pulls=(scarce, *rest)))
    sheet = _sheet(plan)
    lists = (sheet.pulls, *(cook.pulls for cook in sheet.cooks))
    found = [one for pulls in lists for one in pulls if one.ingredient == "onion"]
    assert len(found) == 2
    for one in found:
        assert (one.units, one.left_over) == (13, pytest.approx(2074.0 - ONION_AP))


def test_food_for_a_lot_that_is_not_done_is_left_out_of_the_kitchens_list():
    plan = without_tasks(tiny_plan(), 5, 6)
    sheet = _sheet(plan)
    assert "thigh" not in {item.ingredient for item in sheet.pulls}
    assert [(one.item, one.grams) for one in sheet.left_out] == [("thigh", 4680.0)]
