from dataclasses import replace

import pytest

from planner.morning import PlanOptions, plan_morning
from planner.schedule.problem import Hold, Resource
from planner.sheet.build import build_sheet
from tests.kitchens.bench import DATE, bench, cook, cut_from, dish, food, read, service, work
from tests.kitchens.plans import planned_kitchen, tiny_plan
from tests.sheet.changes import with_assignment, with_lot, with_problem


def _lanes(plan=None):
    sheet = build_sheet(planned_kitchen(), plan or tiny_plan())
    return {lane.title: lane for lane in sheet.lanes}


def _blocks(lane):
    return [(block.kind, block.start, block.end, block.batch) for block in lane.blocks]


def test_cooks_come_first_then_equipment_that_works_unattended():
    assert [(lane.title, lane.kind) for lane in _lanes().values()] == [
        ("Ana", "cook"),
        ("Ben", "cook"),
        ("Stock pot", "equipment"),
        ("Oven tray", "equipment"),
    ]


def test_a_cooks_lane_shows_set_up_leads_work_and_the_line():
    assert _blocks(_lanes()["Ben"]) == [
        ("station set-up", 600, 610, None),
        ("lead", 610, 614, 1),
        ("work", 614, 623, 1),
        ("lead", 623, 628, 2),
        ("work", 628, 643, 2),
        ("on the line", 1020, 1080, None),
    ]


def test_blocks_of_a_cook_never_overlap():
    for lane in _lanes().values():
        ends = [block.end for block in lane.blocks]
        assert all(end <= later.start for end, later in zip(ends, lane.blocks[1:], strict=False))


def test_a_gap_inside_a_batch_stays_a_gap():
    ben = _lanes(with_assignment(tiny_plan(), 2, start=656, end=657))["Ben"]
    assert ("work", 628, 642, 2) in _blocks(ben)
    assert ("work", 656, 657, 2) in _blocks(ben)


def test_equipment_is_unattended_between_work_and_taking_out():
    assert _blocks(_lanes()["Stock pot"]) == [
        ("lead", 645, 650, 3),
        ("work", 650, 655, 3),
        ("unattended", 655, 837, 3),
        ("lead", 837, 840, 5),
        ("work", 840, 847, 5),
    ]


def test_a_tail_past_the_shift_is_unattended():
    holds = tiny_plan().workload.problem.holds
    pot = replace(holds[7], last=3, tail=600)
    lane = _lanes(with_problem(tiny_plan(), holds=(*holds[:7], pot, holds[8])))["Stock pot"]
    assert _blocks(lane)[-1] == ("unattended", 847, 655 + 600, 3)


def test_several_units_of_one_hold_are_said_in_words():
    texts = {block.text for block in _lanes()["Oven tray"].blocks if block.kind == "unattended"}
    assert texts == {"2 x Roast: Chicken thighs"}


def test_holds_that_overlap_take_rows_of_their_own():
    holds = tiny_plan().workload.problem.holds
    stock_on_a_tray = Hold(3, 3, 4)
    plan = with_problem(
        tiny_plan(),
        holds=(*holds[:7], stock_on_a_tray, holds[8]),
        resources=(*tiny_plan().workload.problem.resources[:3], Resource("equipment:tray", 3)),
    )
    lanes = _lanes(plan)
    assert "Oven tray 1" in lanes
    assert "Oven tray 2" in lanes
    assert "Oven tray" not in lanes


def test_what_is_late_is_marked():
    plan = with_problem(
        tiny_plan(),
        tasks=tuple(
            replace(task, due=800) if index == 6 else task
            for index, task in enumerate(tiny_plan().workload.problem.tasks)
        ),
    )
    late = {block.batch for block in _lanes(plan)["Ana"].blocks if block.late}
    assert late == {6}


@pytest.mark.parametrize("index", [3, 4])
def test_equipment_that_is_never_left_alone_has_no_lane(index):
    plan = with_lot(tiny_plan(), index, unattended=0)
    holds = plan.workload.problem.holds
    attended = tuple(replace(hold, last=hold.first, tail=0) for hold in holds)
    assert [lane.kind for lane in _lanes(with_problem(plan, holds=attended)).values()] == [
        "cook",
        "cook",
    ]


def test_a_break_that_work_is_put_down_over_parts_its_block() -> None:
    """Ana's hour and forty minutes of cutting from 08:00, and her break at 08:30."""
    file = bench(
        ingredients=[food("carrot")],
        operations=[work("cut", pausable=True, lot_limit="10 kg")],
        components=[cut_from("carrot", "sticks", "cut")],
        dishes=[dish("plate", {"sticks": "1 kg"})],
        cooks=[cook("ana", shift={"breaks": [{"start": "08:30", "minutes": 15}]})],
        services=[service("brunch", {"plate": 1.0}, 10, opens="09:00")],
        rules={"lot_minutes": 240},
    )
    kitchen = read(file)
    plan = plan_morning(
        kitchen, DATE, PlanOptions(deterministic_limit=0.05, workers=1, remedies=False)
    )
    sheet = build_sheet(kitchen, plan)
    (lane,) = (lane for lane in sheet.lanes if lane.kind == "cook")
    assert [(one.kind, one.start, one.end) for one in lane.blocks] == [
        ("work", 480, 510),
        ("break", 510, 525),
        ("work", 525, 595),
    ]
    ((batch,),) = (one.batches for one in sheet.cooks)
    assert batch.hands_on == 100
    assert "Put it down over the break at 08:30, go on at 08:45." in batch.notes
