"""A lot for lunch and tea that is ready after lunch: lunch goes short, tea does not."""

from planner.morning import PlanOptions, plan_morning
from planner.plan import Plan
from tests.kitchens.bench import DATE, bench, cook, cut_from, dish, food, read, service, work


def plan_of(*, closes: str) -> Plan:
    """Cheese for ten plates each, in one lot as they are due soon after each other: from 13:30."""
    file = bench(
        ingredients=[food("cheese")],
        operations=[work("grate", minutes_per=0, each_lot_minutes=40, lot_limit="4 kg")],
        components=[cut_from("cheese", "grated", "grate")],
        dishes=[dish("plate", {"grated": "100 g"})],
        services=[
            service("lunch", {"plate": 1.0}, opens="12:00", closes=closes),
            service("tea", {"plate": 1.0}, opens="13:15", closes="19:00"),
        ],
        cooks=[cook("ana", shifts=[{"start": "13:30", "end": "20:00"}])],
        rules={"lot_minutes": 60},
    )
    quick = PlanOptions(deterministic_limit=0.1, workers=1, remedies=False)
    return plan_morning(read(file), DATE, quick)


def test_what_is_ready_after_a_service_has_closed_is_short_for_it() -> None:
    plan = plan_of(closes="14:00")
    short = [one for one in plan.short if one.service == "lunch"]
    assert [(one.dish, one.portions, one.minutes) for one in short] == [("plate", 10, 10)]
    assert short[0].text == (
        "Plate (Lunch): 10 portions short, as Grated is ready at 14:10 and the service closes at "
        "14:00"
    )
    assert [one for one in plan.short if one.service == "tea"] == []


def test_what_is_ready_while_it_is_open_is_late_only() -> None:
    plan = plan_of(closes="15:00")
    assert plan.short == ()
    assert [one.minutes for one in plan.late] == [130]
