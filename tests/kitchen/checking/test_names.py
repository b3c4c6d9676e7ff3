"""Ids and names are given once; nothing is listed twice."""

import pytest

from tests.kitchen.reported import only, reported
from tests.kitchens.tiny import tiny_kitchen


@pytest.mark.parametrize(
    "list_name", ["ingredients", "operations", "dishes", "stations", "equipment", "cooks"]
)
def test_two_of_one_name_are_refused_however_it_is_written(list_name: str) -> None:
    file = tiny_kitchen()
    file[list_name][1]["name"] = f"  {file[list_name][0]['name'].upper()} "
    error = only(file)
    assert error.path == f"{list_name}[1].name"
    assert f"{list_name}[0] has the same name" in error.message


@pytest.mark.parametrize("list_name", ["operations", "dishes", "stations", "equipment", "cooks"])
def test_two_of_one_id_are_refused(list_name: str) -> None:
    file = tiny_kitchen()
    copy = {**file[list_name][0], "name": "Another"}
    file[list_name].append(copy)
    error = only(file)
    assert error.path == f"{list_name}[{len(file[list_name]) - 1}].id"
    assert "same id" in error.message


def test_an_ingredient_and_a_component_cannot_share_an_id_or_a_name() -> None:
    file = tiny_kitchen()
    file["components"].append(
        {
            "id": "onion",
            "name": "Onions",
            "inputs": [{"item": "water"}],
            "route": [{"operation": "peel"}],
            "shelf_life_days": 1,
        }
    )
    assert {error.path for error in reported(file)} >= {"components[3].id", "components[3].name"}


def test_every_day_has_its_dinner_but_only_one() -> None:
    file = tiny_kitchen()
    file["services"].append({**file["services"][0], "id": "next", "date": "2025-03-05"})
    assert reported(file) == ()
    file["services"].append({**file["services"][0], "id": "again"})
    assert only(file).path == "services[2].name"


def test_a_cut_may_replace_a_starter_but_not_another_of_the_file() -> None:
    file = tiny_kitchen()
    file["cuts"] = [{"id": "medium_dice", "name": "Medium dice", "inches": [0.4, 0.4, 0.4]}]
    assert reported(file) == ()
    file["cuts"].append({"id": "medium_dice", "name": "Our dice"})
    assert only(file).path == "cuts[1].id"


def test_what_is_listed_twice_is_refused_where_one_would_count() -> None:
    file = tiny_kitchen()
    file["operations"][0]["yields"].append({"food": "onion", "fraction": 0.5})
    file["operations"][0]["rates"] = [{"food": "onion", "minutes_per": n} for n in (1, 2)]
    file["operations"][2]["equipment"].append({"equipment": "pot"})
    file["ingredients"][0]["weights"].append({"unit": "each", "weight": "200 g"})
    file["components"][1]["inputs"].append({"item": "water", "amount": "1 l"})
    file["dishes"][0]["components"].append({"item": "stock", "amount": "1 l"})
    file["services"][0]["mix"].append({"dish": "onion_soup", "per_cover": 0.1})
    file["cooks"][0]["skills"].append({"skill": "knife", "pace": 2})
    file["cooks"][1]["stations"].append("board")
    errors = reported(file)
    assert all("twice" in error.message for error in errors)
    assert {error.path for error in errors} == {
        "operations[0].yields[1]",
        "operations[0].rates[1]",
        "operations[2].equipment[1]",
        "ingredients[0].weights[1]",
        "components[1].inputs[3]",
        "dishes[0].components[2]",
        "services[0].mix[2]",
        "cooks[0].skills[2]",
        "cooks[1].stations[1]",
    }
