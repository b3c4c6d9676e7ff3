"""Warnings about a kitchen file, each provoked in the tiny kitchen and cured again."""

from typing import Any

import pytest

from planner.kitchen.cautions import SafetyNote, cautions_of_kitchen
from planner.kitchen.document import Kitchen
from tests.kitchens.tiny import tiny_kitchen

DICED, STOCK, THIGH = 0, 1, 2
CHILL = {
    "id": "chill",
    "name": "Chill",
    "station": "board",
    "skill": "knife",
    "each_lot_minutes": 3,
    "per": "lot",
    "unattended_minutes": 90,
    "finish_minutes": 1,
    "equipment": [{"equipment": "tray"}],
}


def safe_kitchen() -> dict[str, Any]:
    """The tiny kitchen with a thermometer and a chill step where the code wants them."""
    document = tiny_kitchen()
    document["operations"].append(dict(CHILL))
    for component in (document["components"][STOCK], document["components"][THIGH]):
        component["route"][0]["temperature_c"] = 75
        component["route"].append({"operation": "chill", "temperature_c": 4})
    return document


def notes(document: dict[str, Any]) -> dict[str, SafetyNote]:
    return {note.path: note for note in cautions_of_kitchen(Kitchen.model_validate(document))}


def only(document: dict[str, Any]) -> SafetyNote:
    """The single note of a kitchen."""
    (note,) = cautions_of_kitchen(Kitchen.model_validate(document))
    return note


def test_a_safe_kitchen_has_no_notes() -> None:
    assert notes(safe_kitchen()) == {}


def test_every_note_defers_to_the_local_food_code() -> None:
    found = cautions_of_kitchen(Kitchen.model_validate(tiny_kitchen()))
    assert found
    assert all("the local food code governs" in str(note) for note in found)


@pytest.mark.parametrize(("days", "warned"), [(7, False), (8, True)])
def test_cooked_food_kept_over_seven_days_is_told(days: int, warned: bool) -> None:
    document = safe_kitchen()
    document["components"][STOCK]["shelf_life_days"] = days
    assert ("components[1].shelf_life_days" in notes(document)) is warned


def test_ready_to_eat_food_kept_over_seven_days_is_told_without_a_kill_step() -> None:
    document = safe_kitchen()
    document["components"][DICED].update(shelf_life_days=9, ready_to_eat=True)
    assert only(document).section == "3-501.17"


@pytest.mark.parametrize("change", [{"tcs": False}, {"storage": "frozen"}])
def test_shelf_stable_and_frozen_food_may_keep_longer(change: dict[str, Any]) -> None:
    document = safe_kitchen()
    document["components"][STOCK].update(shelf_life_days=60, **change)
    assert notes(document) == {}


@pytest.mark.parametrize(("degrees", "warned"), [(None, True), (73, True), (74, False)])
def test_a_kill_step_below_its_animals_minimum_is_told(degrees: float | None, warned: bool) -> None:
    document = safe_kitchen()
    document["components"][THIGH]["route"][0]["temperature_c"] = degrees
    found = notes(document)
    assert set(found) == ({"components[2].route[0].temperature_c"} if warned else set())
    if warned:
        assert "raw poultry" in found["components[2].route[0].temperature_c"].text


def test_a_later_hotter_kill_step_cures_a_cooler_one() -> None:
    document = safe_kitchen()
    route = document["components"][THIGH]["route"]
    route.insert(0, {"operation": "roast", "temperature_c": 60})
    assert notes(document) == {}


@pytest.mark.parametrize(("cut", "warned"), [("small_dice", False), ("mince", True)])
def test_ground_meat_wants_more_than_a_whole_cut(cut: str, warned: bool) -> None:
    document = safe_kitchen()
    document["ingredients"][2]["raw_animal"] = "beef"
    thigh = document["components"][THIGH]
    thigh["route"][0]["temperature_c"] = 63
    thigh["route"].insert(0, {"operation": "dice", "cut": cut})
    assert bool(notes(document)) is warned


def test_raw_animal_food_inside_a_component_reaches_the_kill_step_of_the_next() -> None:
    """Thighs that are only diced, then roasted in another component, are still poultry there."""
    document = safe_kitchen()
    document["components"].append(
        {
            "id": "diced_thigh",
            "name": "Diced thigh",
            "inputs": [{"item": "thigh"}],
            "route": [{"operation": "dice"}],
            "shelf_life_days": 2,
        }
    )
    thigh = document["components"][THIGH]
    thigh["inputs"] = [{"item": "diced_thigh"}]
    assert notes(document) == {}
    thigh["route"][0]["temperature_c"] = 63
    assert only(document).path == "components[2].route[0].temperature_c"


def test_cooked_food_stored_cold_without_a_chill_step_is_told() -> None:
    document = safe_kitchen()
    document["components"][STOCK]["route"].pop()
    note = only(document)
    assert note.path == "components[1].route"
    assert "from 57 to 21 C within 2 h and to 5 C within 6 h in all" in note.text


def test_cooling_that_takes_up_nothing_is_told() -> None:
    document = safe_kitchen()
    del document["operations"][-1]["equipment"]
    found = notes(document)
    assert set(found) == {"components[1].route[1].operation", "components[2].route[1].operation"}
    assert "no chill capacity is stated" in found["components[1].route[1].operation"].text


def test_hot_food_left_to_cool_for_hours_with_nobody_to_probe_it_is_told() -> None:
    document = safe_kitchen()
    document["operations"][-1]["finish_minutes"] = 0
    found = notes(document)["components[1].route[1].operation"]
    assert "cools for 1.5 h in 'chill' and nobody probes it" in str(found)
    document["operations"][-1]["check_every_minutes"] = 45
    assert "components[1].route[1].operation" not in notes(document)


@pytest.mark.parametrize(("degrees", "warned"), [(56, True), (57, False), (None, False)])
def test_food_stored_hot_below_the_holding_temperature_is_told(
    degrees: float | None, warned: bool
) -> None:
    document = safe_kitchen()
    document["components"][STOCK]["storage"] = "hot"
    document["components"][STOCK]["route"][-1]["temperature_c"] = degrees
    assert bool(notes(document)) is warned


def test_tcs_food_stored_at_room_temperature_is_told() -> None:
    document = safe_kitchen()
    document["components"][DICED]["storage"] = "ambient"
    assert only(document).path == "components[0].storage"
    document["components"][DICED]["tcs"] = False
    assert notes(document) == {}


@pytest.mark.parametrize(
    ("minutes", "said"),
    [(30, None), (31, "own limit for work in progress is 30 min"), (241, "past 4 h it is discard")],
)
def test_a_wait_at_room_temperature_beyond_the_kitchens_limit_is_told(
    minutes: int, said: str | None
) -> None:
    document = safe_kitchen()
    document["components"][DICED]["route"][0].update(hold="ambient", max_wait_minutes=minutes)
    found = notes(document)
    if said is None:
        assert found == {}
    else:
        assert said in found["components[0].route[0].max_wait_minutes"].text


def test_the_same_wait_in_the_cold_is_nothing_to_tell() -> None:
    document = safe_kitchen()
    document["components"][DICED]["route"][0].update(hold="cold", max_wait_minutes=600)
    assert notes(document) == {}


def raw_fish(**change: Any) -> dict[str, Any]:
    """Thighs become fish that no step cooks."""
    document = safe_kitchen()
    document["ingredients"][2]["raw_animal"] = "fish"
    document["components"][THIGH]["route"] = [{"operation": "dice"}]
    document["components"][THIGH].update(change)
    return document


def test_raw_animal_food_that_goes_in_after_the_kill_step_stays_raw() -> None:
    """Thighs in with the chill step are not what the simmering cooked; with it, they are."""
    document = safe_kitchen()
    late = {"item": "thigh", "amount": "500 g", "after_step": 1}
    document["components"][STOCK]["inputs"].append(late)
    found = {path: str(note) for path, note in notes(document).items()}
    assert [path for path in found if path.startswith("dishes[0].components[0]")]
    assert "goes raw to the line" in found["dishes[0].components[0]"]
    late["after_step"] = 0
    assert notes(document) == {}


def test_raw_food_for_the_line_is_told_with_its_temperature_and_the_advisory() -> None:
    note = only(raw_fish())
    assert note.path == "dishes[1].components[0]"
    assert "cook it to 63 C" in note.text
    assert "consumer advisory" in note.text
    assert "parasite destruction" in note.text


def test_raw_food_marked_ready_to_eat_is_told_once_at_the_component() -> None:
    note = only(raw_fish(ready_to_eat=True))
    assert note.path == "components[2].ready_to_eat"
    assert "parasite destruction" in note.text


def test_beef_needs_no_parasite_control() -> None:
    document = raw_fish()
    document["ingredients"][2]["raw_animal"] = "beef"
    assert "parasite" not in only(document).text


def test_a_raw_by_product_that_may_stand_in_is_seen() -> None:
    document = safe_kitchen()
    document["ingredients"][1]["raw_animal"] = "pork"
    document["components"][DICED]["inputs"][0]["may_use"] = ["onion_ends"]
    assert any("pork" in note.text for note in notes(document).values())


def test_components_that_hold_each_other_do_not_hang() -> None:
    document = safe_kitchen()
    document["components"][DICED]["inputs"] = [{"item": "stock"}]
    document["components"][STOCK]["inputs"] = [{"item": "diced_onion", "amount": "1 kg"}]
    notes(document)
