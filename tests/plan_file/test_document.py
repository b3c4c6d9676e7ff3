import json
from dataclasses import replace

import jsonschema
import pytest
from pydantic import ValidationError

from planner.check.score import score_of
from planner.check.timetable import check_timetable
from planner.plan import LeftOut, Remedy, Trouble
from planner.plan_file import PlanDocument, plan_document
from planner.plan_file.schema import plan_schema
from planner.quantities.types import Supply
from tests.kitchens.plan_food import ONION_AP, ONION_ENDS
from tests.kitchens.plans import planned_kitchen, tiny_plan
from tests.plan_file.rebuild import problem_of, timetable_of
from tests.sheet.changes import without_tasks


def _written(plan=None):
    return json.loads(plan_document(planned_kitchen(), plan or tiny_plan()).model_dump_json())


@pytest.fixture(scope="module")
def written():
    return _written()


def test_the_file_names_its_format_and_version(written):
    assert (written["format"], written["version"]) == ("prepwright-plan", 1)
    assert (written["kitchen"], written["date"]) == ("Tiny kitchen", "2025-03-04")
    assert (written["time_zone"], written["currency"]) == ("UTC", "USD")


def test_the_file_keeps_to_its_own_schema(written):
    jsonschema.Draft202012Validator(plan_schema()).validate(written)


def test_the_file_reads_back_as_it_was_written(written):
    again = PlanDocument.model_validate(written)
    assert again == plan_document(planned_kitchen(), tiny_plan())


def test_an_unknown_field_is_refused(written):
    with pytest.raises(ValidationError, match="surprise"):
        PlanDocument.model_validate({**written, "surprise": 1})


def test_the_whole_problem_can_be_rebuilt_from_the_file(written):
    """Nothing that binds the schedule is left out: the problem comes back equal."""
    assert problem_of(written) == tiny_plan().workload.problem


def test_the_timetable_can_be_rebuilt_and_judged_from_the_file(written):
    problem, timetable = problem_of(written), timetable_of(written)
    assert check_timetable(problem, timetable) == ()
    score = score_of(problem, timetable)
    told = {term["term"]: term["value"] for term in written["objective"]}
    assert told == {
        "short": score.short,
        "tardiness": score.tardiness,
        "labor": score.labor,
        "freshness": score.freshness,
        "finish": score.finish,
    }


def test_what_is_not_made_has_tasks_that_nobody_does():
    written = _written(without_tasks(tiny_plan(), 5, 6))
    made = {lot["id"]: lot["made"] for lot in written["lots"]}
    assert made["roast-thigh-1"] is False
    assert made["peel-onion-1"] is True
    assert [task["done"] for task in written["lots"][4]["tasks"]] == [None, None]


def test_every_time_reads_as_minutes_and_as_clock(written):
    done = written["lots"][0]["tasks"][0]["done"]
    assert done["lead_start"] == {"minutes": 610, "clock": "10:10"}
    assert done["start"] == {"minutes": 614, "clock": "10:14"}
    assert written["demands"][0]["due"] == {"minutes": 1020, "clock": "17:00"}
    assert written["schedule"]["tasks"][0]["release"] == {"minutes": 480, "clock": "08:00"}


def test_what_is_held_is_named_with_its_units(written):
    peel = written["lots"][0]["tasks"][0]["done"]
    board = {"hold": 0, "resource": "station:board", "units": 1, "unit": 0, "cleaned": False}
    assert peel["uses"] == [board]
    roast = written["lots"][4]["tasks"][0]["done"]
    tray = {"hold": 8, "resource": "equipment:tray", "units": 2, "unit": None, "cleaned": False}
    assert tray in roast["uses"]


def test_batches_are_numbered_as_on_the_sheet(written):
    batches = [task["done"]["batch"] for lot in written["lots"] for task in lot["tasks"]]
    assert batches == [1, 2, 2, 3, 5, 4, 6]


def test_quantities_keep_every_reason(written):
    onion = written["quantities"]["components"][0]
    assert [want["reason"] for want in onion["wants"]] == ["dish", "dish", "component"]
    assert onion["stock"] == [
        {"item": "diced_onion", "grams": 60.0, "use_by": "2025-03-04", "after_step": None}
    ]
    assert [step["operation"] for step in onion["steps"]] == ["peel", "dice"]
    assert onion["inputs"][0]["grams"] == pytest.approx(ONION_AP)
    pull = written["quantities"]["pulls"][0]
    assert pull["pulled"] - pull["need"] == pytest.approx(pull["left_over"])
    credit = written["quantities"]["components"][1]["inputs"][1]["credits"][0]
    assert (credit["by_product"], credit["from_component"]) == ("onion_ends", "diced_onion")


def test_what_lots_take_from_one_another_is_told(written):
    stock = written["lots"][3]
    assert [entry["lot"] for entry in stock["upstream"]] == [2]
    assert [entry["item"] for entry in stock["pulls"]] == ["bones", "water"]
    assert stock["stock"] == [
        {"item": "diced_onion", "grams": 60.0},
        {"item": "onion_ends", "grams": pytest.approx(ONION_ENDS)},
    ]
    assert written["lots"][0]["trim"][0]["item"] == "onion_ends"


def test_stretches_away_say_what_they_are_for(written):
    ana, ben = written["schedule"]["cooks"]
    assert [one["kind"] for one in ana["blocked"]] == ["station set-up"]
    assert [one["kind"] for one in ben["blocked"]] == ["station set-up", "on the line"]


def test_breaks_are_told_with_their_windows_and_when_the_plan_has_them(written):
    ana, ben = written["schedule"]["cooks"]
    (lunch,) = ana["rests"]
    assert (lunch["minutes"], lunch["earliest"]["minutes"], lunch["latest"]["minutes"]) == (
        30,
        720,
        720,
    )
    assert ben["rests"] == []
    assert [start["clock"] for start in written["rests"]["ana"]] == ["12:00"]


def test_terms_come_in_order_with_what_is_proven(written):
    labor = written["objective"][2]
    assert (labor["term"], labor["value"], labor["bound"], labor["proven"]) == (
        "labor",
        72,
        68,
        False,
    )
    assert labor["gap"] == pytest.approx(4 / 72)


def test_how_it_was_found_is_told(written):
    solver = written["solver"]
    assert (solver["status"], solver["seed"]) == ("feasible", 1)
    assert [one["origin"] for one in solver["history"]] == ["construction"]


def test_labor_is_told_by_cook_and_in_total(written):
    labor = written["labor"]
    assert [cook["hands_on"] for cook in labor["cooks"]] == [22, 24]
    parts = sum(cook["hands_on"] + cook["set_up"] + cook["changeover"] for cook in labor["cooks"])
    assert (labor["total"], parts) == (72, 72)
    assert [cook["station_set_up"] for cook in labor["cooks"]] == [10, 10]
    assert labor["comparable"] is True
    assert labor["saved"] == labor["dish_by_dish"] - labor["total"] == 9


def test_troubles_and_remedies_are_in_the_file():
    plan = replace(
        tiny_plan(),
        troubles=(Trouble("late", "stock", "Stock is 5 minutes late.", 5, 24, "the one pot"),),
        remedies=(Remedy("A second pot.", 0, 0, solves=True, late_minutes_before=5),),
    )
    written = _written(plan)
    assert written["troubles"][0]["binding"] == "the one pot"
    assert written["remedies"] == [
        {
            "text": "A second pot.",
            "late_minutes": 0,
            "short_portions": 0,
            "solves": True,
            "short_kilos": 0,
            "late_minutes_before": 5,
            "short_portions_before": 0,
            "short_kilos_before": 0,
        }
    ]
    assert (written["troubles"][0]["lacks"], written["troubles"][0]["unit"]) == (
        "hands",
        "portions",
    )


def test_what_nobody_counts_has_no_number():
    plan = tiny_plan()
    onion, *rest = plan.quantities.pulls
    endless = replace(
        onion,
        on_hand=float("inf"),
        supplies=(Supply(float("inf"), 0, "never counted"),),
    )
    plan = replace(plan, quantities=replace(plan.quantities, pulls=(endless, *rest)))
    pull = _written(plan)["quantities"]["pulls"][0]
    assert (pull["on_hand"], pull["supplies"][0]["grams"]) == (None, None)


def _lines(trace):
    return [trace["text"]] + [line for child in trace["children"] for line in _lines(child)]


def test_every_quantity_can_answer_why(written):
    """Each component needed and each ingredient pulled has its trace, with the same grams."""
    quantities = written["quantities"]
    made = {one["component"]: one["to_make"] for one in quantities["components"]}
    pulled = {one["ingredient"]: one["pulled"] for one in quantities["pulls"]}
    told = {item: trace["grams"] for item, trace in written["traces"].items()}
    assert told == {**made, **pulled}


def test_a_trace_leads_from_the_pull_to_the_dishes_and_names_its_sources(written):
    onion = written["traces"]["onion"]
    lines = _lines(onion)
    assert lines[0] == "Onions: pull 13 each = 2.08 kg, as purchased"
    assert any(line.startswith("Onion soup, Dinner: ") for line in lines)
    peel = next(
        one
        for one in onion["children"][0]["children"][0]["children"][0]["children"]
        if one["text"].startswith("Peel")
    )
    assert len(peel["sources"]) == 1


def test_inside_a_trace_a_component_is_explained_once(written):
    for trace in written["traces"].values():
        lines = _lines(trace)
        again = [line for line in lines if line.endswith(", explained above")]
        told = [line for line in lines if line.endswith(" today")]
        assert len(told) == len(set(told))
        assert {line.partition(",")[0] for line in again} <= {
            line.removesuffix(" today") for line in told
        }


def test_a_file_without_traces_can_still_be_read(written):
    """Plans stored before there were traces keep to the same version of the format."""
    old = {name: value for name, value in written.items() if name != "traces"}
    jsonschema.Draft202012Validator(plan_schema()).validate(old)
    assert PlanDocument.model_validate(old).traces == {}


def test_what_is_short_in_all_is_beside_the_weighted_term():
    """Two dishes and a par: guests' portions and the kitchen's own kilos, apart."""
    soup = Trouble(
        "short", "stock", "16 portions short", 12, 16, "Pot in use", "resource",
        service="dinner", dish="onion_soup", lacks_too=("onion",), resource="equipment:pot",
        left_out=(LeftOut("onion_diced", "Onion, diced"),),
    )  # fmt: skip
    own = Trouble("short", "stock", "about 3 kg short", 12, 3, "cook hours", unit="kg")
    plate = replace(soup, dish="chicken_plate", portions=4, left_out=())
    written = _written(replace(tiny_plan(), troubles=(soup, plate, own)))
    assert (written["short_portions"], written["short_kilos"]) == (20, 3)
    first = written["troubles"][0]
    assert (first["service"], first["dish"], first["resource"]) == (
        "dinner",
        "onion_soup",
        "equipment:pot",
    )
    assert first["lacks_too"] == ["onion"]
    assert first["left_out"] == [{"item": "onion_diced", "name": "Onion, diced"}]
