from dataclasses import replace

from planner.kitchen.document import Kitchen
from planner.schedule.problem import Hold
from planner.sheet.build import build_sheet
from tests.kitchens.plans import planned_kitchen, tiny_plan
from tests.sheet.changes import with_problem


def _lines(worker):
    return build_sheet(planned_kitchen(), tiny_plan()).cooks[worker].set_up


def test_every_station_is_set_up_the_same_way_first():
    text = " ".join(_lines(1))
    for words in (
        "damp towel or non-slip feet",
        "honed evenly on both sides",
        "raw, for finished and for waste",
        "Scale on and tared",
        "Sanitiser",
        "hand-wash",
    ):
        assert words in text


def test_what_this_cooks_batches_need_is_listed_once():
    ana = _lines(0)
    assert "Equipment: Stock pot; 2 x Oven tray." in ana
    assert not any(line.startswith("Equipment") for line in _lines(1))


def test_equipment_is_counted_over_the_whole_morning():
    """Two roasts on one tray each, both in the oven at once: two trays, not one."""
    plan = tiny_plan()
    holds = plan.workload.problem.holds
    stock_on_a_tray = Hold(3, 3, 4)
    plan = with_problem(plan, holds=(*holds[:7], stock_on_a_tray, replace(holds[8], units=1)))
    ana = build_sheet(planned_kitchen(), plan).cooks[0]
    assert "Equipment: 2 x Oven tray." in ana.set_up


def test_containers_to_fill_are_counted_by_kind():
    assert "To fill and label: 3 x sixth pan." in _lines(1)


def test_containers_that_cannot_be_counted_are_still_named():
    document = planned_kitchen().model_dump(mode="json")
    document["components"][0]["density"] = None
    kitchen = Kitchen.model_validate(document)
    ben = build_sheet(kitchen, tiny_plan()).cooks[1]
    assert "To fill and label: sixth pan as needed." in ben.set_up
