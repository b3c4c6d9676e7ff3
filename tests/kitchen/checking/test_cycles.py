"""Components made of themselves."""

from typing import Any

import pytest

from tests.kitchen.reported import only, reported
from tests.kitchens.tiny import tiny_kitchen


def chain(links: dict[str, list[str]]) -> dict[str, Any]:
    """Return the tiny kitchen with more components, each made of those listed."""
    file = tiny_kitchen()
    for made, inputs in links.items():
        file["components"].append(
            {
                "id": made,
                "name": made,
                "inputs": [{"item": item, "amount": "1 kg"} for item in inputs],
                "makes": "1 kg",
                "route": [{"operation": "simmer"}],
                "shelf_life_days": 2,
            }
        )
    return file


def with_weights_by_pot(file: dict[str, Any]) -> dict[str, Any]:
    """Let the stock pot hold a mass, so that no density is wanted."""
    file["equipment"][0]["holds"] = "12 kg"
    return file


def test_a_loop_is_named_from_start_to_start() -> None:
    file = with_weights_by_pot(chain({"a": ["b"], "b": ["c"], "c": ["a"]}))
    error = only(file)
    assert error.path == "components[5].inputs[0].item"
    assert "a -> b -> c -> a" in error.message
    assert "replace one" in error.remedy


def test_a_component_made_of_itself_is_a_loop_of_one() -> None:
    assert "a -> a" in only(with_weights_by_pot(chain({"a": ["water", "a"]}))).message


def test_each_loop_is_reported() -> None:
    file = with_weights_by_pot(chain({"a": ["b"], "b": ["a"], "c": ["d"], "d": ["c", "d"]}))
    loops = {error.message.split(": ")[1] for error in reported(file)}
    assert loops == {"a -> b -> a", "c -> d -> c", "d -> d"}


def test_two_ways_to_one_component_are_no_loop() -> None:
    file = with_weights_by_pot(chain({"a": ["b", "c"], "b": ["d"], "c": ["d"], "d": ["water"]}))
    assert reported(file) == ()


@pytest.mark.parametrize("deepest_first", [True, False])
def test_nesting_has_an_end(deepest_first: bool) -> None:
    file = with_weights_by_pot(chain({f"c{n}": [f"c{n + 1}"] for n in range(99)}))
    file["components"][-1]["inputs"][0]["item"] = "water"
    assert reported(file) == ()
    file["components"][-1]["inputs"][0]["item"] = "deeper"
    deeper = {**file["components"][-1], "id": "deeper", "name": "deeper"}
    file["components"].append({**deeper, "inputs": [{"item": "deepest", "amount": "1 kg"}]})
    file["components"].append(
        {
            **deeper,
            "id": "deepest",
            "name": "deepest",
            "inputs": [{"item": "water", "amount": "1 kg"}],
        }
    )
    if deepest_first:
        file["components"].reverse()
    error = only(file)
    assert error.element == "c0"
    assert "more than 100 deep" in error.message


def test_a_loop_of_thousands_is_found_and_shown_short() -> None:
    """No recursion: a hostile file must not exhaust the stack."""
    count = 3000
    links = {f"c{index}": [f"c{(index + 1) % count}"] for index in range(count)}
    error = reported(with_weights_by_pot(chain(links)))[0]
    assert error.message.endswith("c8 -> c9 -> ... -> c0")
