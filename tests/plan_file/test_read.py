"""A plan file read back gives the plan that it was written from, or says what does not fit."""

import json
from collections.abc import Callable
from typing import Any

import pytest

from planner.plan_file import plan_document
from planner.plan_file.read import PlanFileError, read_plan
from tests.kitchens.seeds import planned_seed

Json = dict[str, Any]


@pytest.mark.parametrize("name", ["small", "demo"])
def test_a_plan_comes_back_as_it_was(name: str) -> None:
    kitchen, plan = planned_seed(name)
    again = read_plan(kitchen, plan_document(kitchen, plan).model_dump_json().encode())
    assert again.workload == plan.workload
    assert sorted(again.solution.timetable.assignments, key=lambda one: one.task) == sorted(
        plan.solution.timetable.assignments, key=lambda one: one.task
    )
    assert again.solution.score == plan.solution.score
    assert (again.labor, again.troubles, again.remedies) == (
        plan.labor,
        plan.troubles,
        plan.remedies,
    )


def _first_done(document: Json) -> Json:
    tasks = (task for lot in document["lots"] for task in lot["tasks"])
    done: Json = next(task["done"] for task in tasks if task["done"] is not None)
    return done


def _rename(document: Json) -> None:
    document["lots"][0]["id"] = "0:juggle"


def _heavier(document: Json) -> None:
    document["lots"][0]["grams_in"] += 100


def _fewer(document: Json) -> None:
    document["lots"].pop()


def _stranger(document: Json) -> None:
    _first_done(document)["cook"] = "zoe"


def _elsewhere(document: Json) -> None:
    document["kitchen"] = "Another kitchen"


def _other_rules(document: Json) -> None:
    document["schedule"]["changeovers"]["clean"] += 1


def _too_early(document: Json) -> None:
    for end in ("start", "end"):
        _first_done(document)[end]["minutes"] -= 600


def _no_plan(document: Json) -> None:
    document["format"] = "prepwright-kitchen"


@pytest.mark.parametrize(
    ("change", "field"),
    [
        (_rename, "id"),
        (_heavier, "grams_in"),
        (_fewer, "lots"),
        (_stranger, "cook"),
        (_elsewhere, "kitchen"),
        (_other_rules, "schedule.changeovers"),
        (_too_early, "schedule"),
        (_no_plan, "format"),
    ],
)
def test_what_does_not_fit_is_named(change: Callable[[Json], None], field: str) -> None:
    kitchen, plan = planned_seed("small")
    document = json.loads(plan_document(kitchen, plan).model_dump_json())
    change(document)
    with pytest.raises(PlanFileError) as caught:
        read_plan(kitchen, json.dumps(document).encode())
    assert field in caught.value.field
    assert caught.value.remedy in str(caught.value)
