"""The last lines of the terminal's summary: how the day stands."""

import datetime as dt
import json

from planner.kitchen.reading import read_kitchen
from planner.morning import PlanOptions, plan_morning
from service.commands.summary import outcome_lines
from tests.kitchens.bench import DATE, File, bench, cut_from, dish, food, read, service, work

QUICK = PlanOptions(deterministic_limit=0.1, workers=1, remedies=False)


def kitchen(**parts: object) -> File:
    """Pork soaks for twelve hours, for a brunch tomorrow."""
    soak = work("soak", unattended_minutes=720, finish_minutes=0)
    return bench(
        ingredients=[food("pork")],
        operations=[soak, work("cut")],
        components=[cut_from("pork", "ham", "soak", "cut")],
        dishes=[dish("plate", {"ham": "100 g"})],
        services=[service("brunch", {"plate": 1.0}, opens="09:00", closes="12:00", ahead=1)],
        rules={"lookahead_days": 1},
        **parts,
    )


def test_a_day_without_a_service_says_so_and_what_is_begun() -> None:
    plan = plan_morning(read(kitchen()), DATE, QUICK)
    assert list(outcome_lines(plan)) == [
        "There is no service on Tuesday 4 March 2025.",
        "Made or started for later days: Ham.",
    ]


def test_a_day_without_a_service_or_work_says_so() -> None:
    file = read_kitchen(json.dumps(kitchen()).encode())
    plan = plan_morning(file, DATE + dt.timedelta(days=5), QUICK)
    assert list(outcome_lines(plan))[1] == "Nothing is made or started for later days."


def test_what_is_short_in_all_comes_before_each_dish() -> None:
    """Of weight 3, ten plates of ham lack pork: guests count ten portions, not thirty."""
    file = bench(
        ingredients=[food("pork")],
        operations=[work("cut")],
        components=[cut_from("pork", "ham", "cut")],
        dishes=[dish("plate", {"ham": "100 g"}, weight=3)],
        raw_stock=[],
    )
    plan = plan_morning(read(file), DATE, QUICK)
    assert plan.solution.score.short == 30
    total, first, *_ = outcome_lines(plan)
    assert total == "Short in all: 10 portions."
    assert first.startswith("SHORT: Plate (Dinner): 10 portions short")
