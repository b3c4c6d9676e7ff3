"""Alerts in whole sentences, with the components and dishes they hold up."""

from dataclasses import replace

from planner.kitchen.document import Kitchen
from planner.quantities.types import Alert
from planner.sheet.alerts import alerts
from planner.sheet.view import PlanView
from tests.kitchens.plans import planned_kitchen, tiny_plan


def test_an_alert_names_the_dishes_that_wait_for_it() -> None:
    plan = tiny_plan()
    stock = next(lot for lot in plan.workload.lots if lot.operation == "simmer")
    (bones, *_rest) = [item for item, _grams in stock.pulls]
    jobs = tuple(
        replace(job, impossible="no bones") if index == stock.index else job
        for index, job in enumerate(plan.workload.problem.jobs)
    )
    alert = Alert("missing", bones, "Bones are missing.", ("Chicken stock",))
    plan = replace(
        plan,
        workload=replace(plan.workload, problem=replace(plan.workload.problem, jobs=jobs)),
        quantities=replace(plan.quantities, alerts=(alert,)),
    )
    assert alerts(PlanView(planned_kitchen(), plan)) == (
        "Bones are missing. Holds up: Chicken stock. For: Onion soup (Dinner).",
    )


def test_a_dish_that_takes_it_as_it_is_is_named_with_its_service() -> None:
    document = planned_kitchen().model_dump(mode="json")
    for dish in document["dishes"]:
        if dish["id"] == "chicken_plate":
            dish["components"].append({"item": "onion", "amount": "5 g"})
    plan = tiny_plan()
    alert = Alert("missing", "onion", "9 g of Onions are missing.", ("Chicken plate",))
    plan = replace(plan, quantities=replace(plan.quantities, alerts=(alert,)))
    assert alerts(PlanView(Kitchen.model_validate(document), plan)) == (
        "9 g of Onions are missing. For: Chicken plate (Dinner).",
    )


def test_a_missed_start_names_only_the_dishes_whose_own_food_missed_it() -> None:
    """Lots may be shared with dishes that have missed nothing."""
    plan = tiny_plan()
    late = Alert("missed start", "stock", "Late.", ("Chicken stock",), (("dinner", "onion_soup"),))
    lots = tuple(replace(lot, missed=True) for lot in plan.workload.lots)
    plan = replace(
        plan,
        workload=replace(plan.workload, lots=lots),
        quantities=replace(plan.quantities, alerts=(late,)),
    )
    (text,) = alerts(PlanView(planned_kitchen(), plan))
    assert text == "Late. Holds up: Chicken stock. For: Onion soup (Dinner)."
