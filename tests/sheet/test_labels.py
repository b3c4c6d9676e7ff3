import datetime as dt

import pytest

from planner.kitchen.document import Kitchen
from planner.morning import PlanOptions, plan_morning
from planner.sheet.build import build_sheet
from tests.kitchens.bench import DATE, bench, cut_from, dish, food, read, service, work
from tests.kitchens.plans import planned_kitchen, tiny_plan
from tests.sheet.changes import with_lot

MADE = dt.date(2025, 3, 4)


def _labels(kitchen=None, plan=None):
    sheet = build_sheet(kitchen or planned_kitchen(), plan or tiny_plan())
    return {
        (batch.operation, batch.part): batch.label for cook in sheet.cooks for batch in cook.batches
    }


def _with_component(component_id: str, **changes) -> Kitchen:
    document = planned_kitchen().model_dump(mode="json")
    for component in document["components"]:
        if component["id"] == component_id:
            component.update(changes)
    return Kitchen.model_validate(document)


def test_day_of_preparation_is_day_one():
    dice = _labels()["dice", "work"]
    assert (dice.made, dice.use_by) == (MADE, MADE + dt.timedelta(days=1))
    today = _labels(_with_component("diced_onion", shelf_life_days=1))["dice", "work"]
    assert today.use_by == MADE


def test_combined_food_keeps_the_earliest_date_of_the_stock_in_it():
    """Stock keeps 4 days, to the 7th; the diced onion in it was to be used by the 4th."""
    assert _labels()["simmer", "finish"].use_by == MADE
    without = with_lot(tiny_plan(), 3, stock=())
    assert _labels(plan=without)["simmer", "finish"].use_by == dt.date(2025, 3, 7)


def test_dates_travel_down_through_every_lot():
    """The old onion enters at the dice; the stock takes from the dice, so its date is kept too."""
    plan = with_lot(tiny_plan(), 3, stock=())
    plan = with_lot(plan, 2, stock=(("diced_onion", 60.0),))
    assert _labels(plan=plan)["simmer", "finish"].use_by == MADE


def test_food_is_labelled_where_it_is_packed():
    labels = _labels()
    assert labels["simmer", "work"] is None
    assert labels["simmer", "finish"].component == "Chicken stock"
    assert labels["peel", "work"] is None


def test_work_that_nobody_goes_on_with_today_is_labelled_as_part_made():
    """Brined tonight, cooked tomorrow: it goes to the shelf and needs a name and a date."""
    plan = tiny_plan()
    for index in (1, 2, 3):
        plan = with_lot(plan, index, upstream=())
    peel = _labels(plan=plan)["peel", "work"]
    assert peel.component == "Diced onion (part-made: after Peel)"


def test_what_is_begun_for_tomorrow_waits_as_its_step_says_and_keeps_until_then():
    """Stew keeps a day and is held hot; its beans soak over night, in the cold, for tomorrow."""
    file = bench(
        ingredients=[food("bean")],
        operations=[work("soak", unattended_minutes=900), work("boil")],
        components=[
            cut_from("bean", "stew", "soak", "boil", storage="hot", tcs=True, shelf_life_days=1)
        ],
        dishes=[dish("bowl", {"stew": "100 g"})],
        services=[service("lunch", {"bowl": 1.0}, ahead=1)],
        rules={"lookahead_days": 1},
    )
    kitchen = read(file)
    plan = plan_morning(kitchen, DATE, PlanOptions(deterministic_limit=0.1, workers=1))
    (cook,) = build_sheet(kitchen, plan).cooks
    (label,) = [batch.label for batch in cook.batches]
    assert label.component == "Stew (part-made: after Soak)"
    assert (label.storage, label.use_by) == ("cold", DATE + dt.timedelta(days=1))


def test_the_cook_who_packs_signs():
    labels = _labels()
    assert labels["dice", "work"].initials == "BE"
    assert labels["roast", "finish"].initials == "AN"


def test_containers_follow_volume_and_density_rounded_up():
    """1 791 g at 0.5 g/ml is 3.58 l: three pans of 1.6 l."""
    dice = _labels()["dice", "work"]
    assert (dice.container, dice.containers) == ("sixth pan", 3)
    assert _labels()["simmer", "finish"].containers == 4


def test_without_a_density_nobody_guesses_the_containers():
    label = _labels(_with_component("diced_onion", density=None))["dice", "work"]
    assert (label.container, label.containers) == ("sixth pan", None)
    assert _labels()["roast", "finish"].container is None


def test_allergens_of_everything_in_the_container_are_named():
    plan = with_lot(tiny_plan(), 1, allergens=frozenset({"wheat", "celery"}))
    plan = with_lot(plan, 2, allergens=frozenset({"milk"}))
    assert _labels(plan=plan)["dice", "work"].allergens == ("celery", "milk", "wheat")


@pytest.mark.parametrize("storage", ["cold", "frozen"])
def test_the_label_says_where_it_is_kept(storage):
    assert _labels(_with_component("stock", storage=storage))["simmer", "finish"].storage == storage
