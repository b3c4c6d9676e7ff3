"""References to what is not there, or is of another kind."""

from typing import Any

import pytest

from tests.kitchen.reported import only, reported
from tests.kitchens.tiny import tiny_kitchen


def put(file: dict[str, Any], path: str, value: object) -> None:
    """Set the value at a dotted path such as ``dishes.0.components.0.item``."""
    *steps, last = [int(step) if step.isdigit() else step for step in path.split(".")]
    here: Any = file
    for step in steps:
        here = here[step]
    here[last] = value


@pytest.mark.parametrize(
    ("path", "value", "close"),
    [
        ("operations.0.station", "bord", "board"),
        ("operations.0.yields.0.food", "onoin", "onion"),
        ("operations.0.yields.0.trim.0.item", "onion_end", "onion_ends"),
        ("operations.2.equipment.0.equipment", "pots", "pot"),
        ("components.0.route.1.operation", "dise", "dice"),
        ("components.0.route.1.cut", "medium_dise", "medium_dice"),
        ("components.0.inputs.0.item", "onions", "onion"),
        ("components.1.inputs.1.may_use.0", "onion_endz", "onion_ends"),
        ("dishes.0.components.0.item", "stoc", "stock"),
        ("services.0.mix.0.dish", "onion_sup", "onion_soup"),
        ("cooks.1.stations.0", "bored", "board"),
        ("prepared.0.item", "stoock", "stock"),
        ("raw_stock.2.item", "bonez", "bones"),
        ("deliveries.0.item", "onnion", "onion"),
    ],
)
def test_an_unknown_id_is_refused_with_the_one_that_looks_like_it(
    path: str, value: str, close: str
) -> None:
    file = tiny_kitchen()
    put(file, path, value)
    dotted = "".join(f"[{step}]" if step.isdigit() else f".{step}" for step in path.split("."))
    error = only(file)
    assert error.path == dotted.removeprefix(".")
    assert error.value == value
    assert f"did you mean '{close}'?" in error.remedy


def test_an_id_like_no_other_gets_no_suggestion() -> None:
    file = tiny_kitchen()
    file["operations"][0]["station"] = "xyzzy"
    assert "did you mean" not in only(file).remedy


def test_the_starter_cuts_need_not_be_in_the_file() -> None:
    file = tiny_kitchen()
    file["components"][0]["route"][1]["cut"] = "brunoise"
    assert reported(file) == ()


def test_trim_goes_to_a_by_product() -> None:
    file = tiny_kitchen()
    file["operations"][0]["yields"][0]["trim"][0]["item"] = "bones"
    error = only(file)
    assert error.path == "operations[0].yields[0].trim[0].item"
    assert "bought, not a by-product" in error.message
    assert "by_product: true" in error.remedy


def test_only_a_by_product_stands_in_for_an_input() -> None:
    file = tiny_kitchen()
    file["components"][1]["inputs"][1]["may_use"] = ["onion"]
    assert only(file).path == "components[1].inputs[1].may_use[0]"


def test_a_by_product_alone_serves_only_where_some_was_counted() -> None:
    file = tiny_kitchen()
    file["components"][1]["inputs"].append({"item": "onion_ends", "amount": "200 g"})
    error = only(file)
    assert error.path == "components[1].inputs[3].item"
    assert "never bought" in error.message
    file["raw_stock"].append({"item": "onion_ends", "amount": "1 kg", "received": "2025-03-03"})
    assert reported(file) == ()


def test_stock_is_counted_on_the_right_list() -> None:
    file = tiny_kitchen()
    file["prepared"][0].update(item="bones", amount="2 kg")
    file["raw_stock"][2].update(item="stock", amount="2 l")
    remedies = {error.path: error.remedy for error in reported(file)}
    assert "under raw_stock" in remedies["prepared[0].item"]
    assert "under prepared" in remedies["raw_stock[2].item"]


@pytest.mark.parametrize("after_step", [2, 7])
def test_part_made_stock_has_a_step_left(after_step: int) -> None:
    file = tiny_kitchen()
    file["prepared"].append(
        {
            "item": "diced_onion",
            "amount": "1 kg",
            "made": "2025-03-03",
            "use_by": "2025-03-05",
            "after_step": after_step,
        }
    )
    error = only(file)
    assert error.path == "prepared[1].after_step"
    assert "2 steps" in error.message
    file["prepared"][1]["after_step"] = 1
    assert reported(file) == ()


def walks(*pairs: tuple[str, str]) -> dict[str, Any]:
    """The tiny kitchen with walks of two minutes."""
    file = tiny_kitchen()
    listed = [{"station": one, "other": other, "minutes": 2} for one, other in pairs]
    file["rules"] = {"changeovers": {"walks": listed}}
    return file


def test_walks_are_between_stations_that_are_there() -> None:
    error = only(walks(("board", "stov")))
    assert (error.path, error.value) == ("rules.changeovers.walks[0].other", "stov")
    assert "did you mean 'stove'?" in error.remedy


def test_a_walk_has_two_ends_and_stands_once() -> None:
    error = only(walks(("board", "board")))
    assert "the same station" in error.message
    error = only(walks(("board", "stove"), ("stove", "board")))
    assert error.path == "rules.changeovers.walks[1].other"
    assert "stand at rules.changeovers.walks[0]" in error.message
