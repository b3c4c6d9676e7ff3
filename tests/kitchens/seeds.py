"""The seed kitchens planned once per test run, by constructive rules and a short search."""

from functools import cache
from pathlib import Path

from planner.kitchen.document import Kitchen
from planner.kitchen.reading import read_kitchen
from planner.morning import PlanOptions, plan_morning
from planner.plan import Plan

_FOLDER = Path(__file__).parents[2] / "seed_data"


@cache
def planned_seed(name: str) -> tuple[Kitchen, Plan]:
    """Return the seed kitchen ``name`` (``small``, ``demo``) and a plan of its day."""
    kitchen = read_kitchen((_FOLDER / f"{name}.json").read_bytes())
    # By work done, not by the clock: the same plan on a machine that others use.
    options = PlanOptions(deterministic_limit=0.5, workers=1, remedy_seconds=0.02)
    return kitchen, plan_morning(kitchen, kitchen.as_of, options)
