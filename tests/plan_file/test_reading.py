"""A plan file read again is the plan that was written; one of another kitchen is refused."""

import json
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from planner.kitchen.document import Kitchen
from planner.plan import Plan
from planner.plan_file import plan_document
from planner.plan_file.reading import PlanFileError, read_plan
from tests.kitchens.seeds import planned_seed


def written(kitchen: Kitchen, plan: Plan) -> dict[str, Any]:
    document: dict[str, Any] = json.loads(plan_document(kitchen, plan).model_dump_json())
    return document


@pytest.mark.parametrize("name", ["small", "demo"])
def test_what_is_read_is_what_was_written(name: str) -> None:
    kitchen, plan = planned_seed(name)
    again = read_plan(kitchen, json.dumps(written(kitchen, plan)).encode())
    assert again == replace(plan, remedies=())


@pytest.mark.parametrize("text", [b"", b"{}", b"[]", b'{"format": "prepwright-kitchen"}'])
def test_what_is_no_plan_file_is_refused_with_a_remedy(text: bytes) -> None:
    kitchen, _ = planned_seed("small")
    with pytest.raises(PlanFileError, match=r"no plan file of version 1.*Write one with"):
        read_plan(kitchen, text)


def other_covers(kitchen: Kitchen) -> Kitchen:
    services = tuple(one.model_copy(update={"covers": one.covers + 10}) for one in kitchen.services)
    return kitchen.model_copy(update={"services": services})


def later_shifts(kitchen: Kitchen) -> Kitchen:
    cooks = tuple(
        cook.model_copy(
            update={"shifts": tuple(s.model_copy(update={"end": "15:59"}) for s in cook.shifts)}
        )
        for cook in kitchen.cooks
    )
    return kitchen.model_copy(update={"cooks": cooks})


def fewer_cooks(kitchen: Kitchen) -> Kitchen:
    return kitchen.model_copy(update={"cooks": kitchen.cooks[:1]})


@pytest.mark.parametrize("change", [other_covers, later_shifts, fewer_cooks])
def test_a_kitchen_that_was_changed_since_is_told(change: Callable[[Kitchen], Kitchen]) -> None:
    kitchen, plan = planned_seed("small")
    data = json.dumps(written(kitchen, plan)).encode()
    with pytest.raises(PlanFileError, match=r"does not go with this kitchen file.*Plan the day"):
        read_plan(change(kitchen), data)


def test_a_timetable_that_was_tampered_with_is_refused() -> None:
    kitchen, plan = planned_seed("small")
    document = written(kitchen, plan)
    done = document["lots"][0]["tasks"][0]["done"]
    done["start"]["minutes"] -= 600
    done["end"]["minutes"] -= 600
    with pytest.raises(PlanFileError, match="does not go"):
        read_plan(kitchen, json.dumps(document).encode())


def test_a_score_that_is_not_the_timetables_is_refused() -> None:
    kitchen, plan = planned_seed("small")
    document = written(kitchen, plan)
    document["objective"][2]["value"] -= 1
    with pytest.raises(PlanFileError, match="does not go"):
        read_plan(kitchen, json.dumps(document).encode())
