"""Plan files of the seed kitchens, judged by what stands in the file alone."""

import json
import subprocess
import sys

import jsonschema
import pytest

from planner.check.score import score_of
from planner.check.timetable import check_timetable
from planner.plan_file import plan_document
from planner.plan_file.schema import plan_schema
from planner.why import trace_lines, why
from tests.kitchens.seeds import planned_seed
from tests.plan_file.rebuild import problem_of, timetable_of
from tests.plan_file.test_reference import example_program


@pytest.fixture(scope="module", params=["small", "demo"])
def planned(request):
    kitchen, plan = planned_seed(request.param)
    return kitchen, plan, json.loads(plan_document(kitchen, plan).model_dump_json())


def test_the_file_keeps_to_its_schema(planned):
    jsonschema.Draft202012Validator(plan_schema()).validate(planned[2])


def test_the_problem_comes_back_whole(planned):
    _kitchen, plan, written = planned
    assert problem_of(written) == plan.workload.problem


def test_every_rule_and_the_objective_can_be_checked_from_the_file(planned):
    written = planned[2]
    problem, timetable = problem_of(written), timetable_of(written)
    assert check_timetable(problem, timetable) == ()
    score = score_of(problem, timetable)
    for term in written["objective"]:
        assert term["value"] == getattr(score, term["term"])
        assert term["bound"] <= term["value"]


def test_the_example_program_agrees(planned, tmp_path):
    path = tmp_path / "plan.json"
    path.write_text(json.dumps(planned[2]), encoding="utf-8")
    result = subprocess.run(  # noqa: S603
        [sys.executable, "-I", "-c", example_program(), str(path)],
        capture_output=True,
        text=True,
        timeout=30,
        check=False,
    )
    assert (result.returncode, result.stderr) == (0, "")


def test_every_quantity_of_the_day_can_be_explained(planned):
    kitchen, plan, written = planned
    for component in written["quantities"]["components"]:
        trace = why(kitchen, plan, component["component"])
        assert trace.grams == component["to_make"]
        assert trace_lines(trace)
    for pull in written["quantities"]["pulls"]:
        assert why(kitchen, plan, pull["ingredient"]).grams == pull["pulled"]


def test_traces_do_not_outgrow_the_rest_of_the_file(planned):
    """A component is explained once per trace, not wherever it is met."""
    written = planned[2]
    traces = len(json.dumps(written["traces"]))
    assert traces < len(json.dumps(written)) / 2


def test_what_is_not_wanted_today_can_be_asked_for_too(planned):
    kitchen, plan, written = planned
    wanted = {one["component"] for one in written["quantities"]["components"]}
    wanted |= {pull["ingredient"] for pull in written["quantities"]["pulls"]}
    for food in (*kitchen.components, *kitchen.ingredients):
        if food.id not in wanted:
            assert trace_lines(why(kitchen, plan, food.id))


def test_wants_less_stock_and_later_work_are_what_is_made(planned):
    """The balance behind 'not started today' in a trace: it never goes below nothing."""
    for one in planned[2]["quantities"]["components"]:
        own = sum(m["grams"] for m in one["makings"] if m["reason"] in ("par", "batch"))
        stock = sum(use["grams"] for use in one["stock"] if use["after_step"] is None)
        rest = sum(want["grams"] for want in one["wants"]) + own - stock - one["to_make"]
        assert rest >= -1e-3, one["component"]
