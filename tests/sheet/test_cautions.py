from dataclasses import replace

import pytest

from planner.kitchen.document import Kitchen
from planner.schedule.problem import Hygiene
from planner.sheet.build import build_sheet
from tests.kitchens.plans import planned_kitchen, tiny_plan
from tests.sheet.changes import with_lot, with_problem


def _cautions(operation, part="work", kitchen=None, plan=None):
    sheet = build_sheet(kitchen or planned_kitchen(), plan or tiny_plan())
    for cook in sheet.cooks:
        for batch in cook.batches:
            if (batch.operation, batch.part) == (operation, part):
                return " ".join(batch.cautions)
    raise AssertionError(f"no batch {operation} {part}")


def _with_cautions(operation_id, *cautions) -> Kitchen:
    document = planned_kitchen().model_dump(mode="json")
    for operation in document["operations"]:
        if operation["id"] == operation_id:
            operation["cautions"] = list(cautions)
    return Kitchen.model_validate(document)


def test_knife_work_tells_of_the_guiding_hand_and_the_damp_towel():
    text = _cautions("dice")
    assert "fingertips curled behind the knuckles" in text
    assert "board on a damp towel" in text


@pytest.mark.parametrize(
    ("caution", "words"),
    [
        ("machine", "guard on, trained cooks only"),
        ("hot fat", "keep water out"),
        ("steam", "open lids and doors away"),
        ("hot surface", "dry cloth or mitts"),
        ("lifting", "two people"),
    ],
)
def test_every_hazard_of_an_operation_has_its_words(caution, words):
    assert words not in _cautions("dice")
    assert words in _cautions("dice", kitchen=_with_cautions("dice", caution))


def test_a_knife_is_not_warned_of_where_food_is_only_taken_out():
    kitchen = _with_cautions("simmer", "knife", "steam")
    assert "Knife:" in _cautions("simmer", kitchen=kitchen)
    assert "Knife:" not in _cautions("simmer", "finish", kitchen=kitchen)
    assert "Steam:" in _cautions("simmer", "finish", kitchen=kitchen)


def test_a_temperature_to_hit_defers_to_the_local_food_code():
    text = _cautions("roast")
    assert "probe thermometer" in text
    assert "the local food code governs" in text


def test_cooking_through_without_a_temperature_still_says_to_check():
    assert "Cook through" in _cautions("simmer")


def test_what_has_no_raw_animal_food_in_it_is_not_cooked_through_by_a_thermometer():
    """Stock of bones, and the same of roots alone."""
    plan = tiny_plan()
    families = tuple(
        replace(family, hygiene=Hygiene()) for family in plan.workload.problem.families
    )
    assert "Cook through" in _cautions("simmer")
    assert "Cook through" not in _cautions("simmer", plan=with_problem(plan, families=families))


def test_holding_limits_stand_with_their_source_where_finished_food_goes_to_the_shelf():
    text = _cautions("simmer", "finish")
    assert "5 C (41 F) or below (FDA Food Code 3-501.16)" in text
    assert "Hold cold" not in _cautions("peel")


def test_holding_is_told_where_the_food_is_packed_not_before():
    assert "Hold cold" not in _cautions("simmer")
    assert "Hold cold" in _cautions("dice")


def test_food_cooled_down_tells_of_both_cooling_limits():
    document = planned_kitchen().model_dump(mode="json")
    document["components"][2]["route"][0]["temperature_c"] = 4
    text = _cautions("roast", "finish", kitchen=Kitchen.model_validate(document))
    assert "from 57 to 21 C (135 to 70 F) within 2 h" in text
    assert "from 57 to 5 C (135 to 41 F) within 6 h" in text
    assert "Cool fast" not in _cautions("roast", "finish")


def test_raw_food_kept_cold_is_not_cooled_down():
    document = planned_kitchen().model_dump(mode="json")
    document["components"][0]["route"][0]["temperature_c"] = 4
    text = _cautions("peel", kitchen=Kitchen.model_validate(document))
    assert "Temperature:" in text
    assert "Cool fast" not in text


def test_raw_animal_food_is_kept_apart_until_it_is_cooked():
    assert "Raw poultry" in _cautions("roast")
    assert "Raw" not in _cautions("roast", "finish")
    assert "Raw" not in _cautions("dice")


def test_allergens_are_named():
    plan = with_lot(tiny_plan(), 1, allergens=frozenset({"milk", "wheat"}))
    assert "Allergens: milk, wheat." in _cautions("dice", plan=plan)


def test_hands_are_washed_where_the_lead_has_it():
    assert "Wash hands before this batch." in _cautions("simmer", "finish")
    assert "Wash hands before this batch." not in _cautions("dice")


def test_hygiene_of_the_family_decides_not_the_operation():
    families = tiny_plan().workload.problem.families
    plan = with_problem(
        tiny_plan(), families=(replace(families[0], hygiene=Hygiene("beef+pork")), *families[1:])
    )
    assert "Raw beef and pork" in _cautions("peel", plan=plan)
