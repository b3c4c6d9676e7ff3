from dataclasses import replace

from planner.lots.types import LotShare, Part
from planner.sheet.build import build_sheet
from planner.sheet.food_names import food_name, handed_over
from planner.sheet.view import PlanView
from tests.kitchens.plans import planned_kitchen, tiny_plan
from tests.sheet.changes import with_lot


def _view(plan=None) -> PlanView:
    return PlanView(planned_kitchen(), plan or tiny_plan())


def _batches(plan):
    sheet = build_sheet(planned_kitchen(), plan)
    return {batch.number: batch for cook in sheet.cooks for batch in cook.batches}


def test_food_is_called_as_purchased_until_it_is_worked_and_then_by_its_component():
    peel, dice = _batches(tiny_plan())[1], _batches(tiny_plan())[2]
    assert (peel.operation, peel.food_name) == ("peel", "Onions")
    assert (dice.operation, dice.food_name) == ("dice", "Diced onion")


def test_what_is_taken_out_is_no_longer_called_as_purchased():
    """26 roast thighs come out of the oven, not 26 raw ones."""
    roast, taken_out = (one for one in _batches(tiny_plan()).values() if one.operation == "roast")
    assert (roast.part, roast.food_name) == ("work", "Chicken thighs")
    assert (taken_out.part, taken_out.food_name) == ("finish", "Roast thighs")


def test_food_that_several_components_share_keeps_the_foods_name():
    lot = tiny_plan().workload.lots[1]
    shares = (LotShare("diced_onion", 900.0), LotShare("stock", 840.0))
    view = _view(with_lot(tiny_plan(), 1, shares=shares))
    assert food_name(view, (replace(lot, shares=shares),), Part.WORK) == "Onions"


def test_what_is_handed_over_names_the_step_it_has_behind_it():
    view = _view()
    peel, dice = view.lots[0], view.lots[1]
    assert handed_over(view, peel) == "Onions after Peel"
    assert handed_over(view, dice) == "Diced onion after Dice"
