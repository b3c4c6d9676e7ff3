"""Grams through a route, worked out by hand."""

import pytest

from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import Converter
from planner.kitchen.flow import Flow, FlowError, measured_step, route_flow
from tests.kitchens.bench import File, bench, cut_from, dish, food, read, recipe, work

HALF = {"fraction": 0.5, "source": "our test"}


def flow_of(component: File, **parts: list[File]) -> Flow:
    kitchen = read(file_of(component, **parts))
    catalog = Catalog(kitchen)
    return route_flow(catalog, Converter(kitchen), catalog.components["soup"])


def file_of(component: File, **parts: list[File]) -> File:
    return bench(
        ingredients=[food("leek"), food("water"), food("cream")],
        operations=[work("sweat"), work("boil"), work("blend")],
        components=[component],
        dishes=[dish("bowl", {"soup": "100 g"})],
        **parts,
    )


def soup(makes: str, after: tuple[int, int, int], *fractions: float | None) -> File:
    """1 kg leek, 2 kg water and 0.5 kg cream, sweated, boiled and blended."""
    route: list[str | File] = [
        {"operation": name}
        if fraction is None
        else {"operation": name, "fraction": {"fraction": fraction, "source": "our test"}}
        for name, fraction in zip(("sweat", "boil", "blend"), fractions, strict=True)
    ]
    made = recipe("soup", makes, {"leek": "1 kg", "water": "2 kg", "cream": "500 g"}, *route)
    for entry, step in zip(made["inputs"], after, strict=True):
        entry["after_step"] = step
    return made


def grams(flow: Flow, makes: float) -> list[tuple[float, float]]:
    return [(round(s.grams_in * makes, 6), round(s.grams_out * makes, 6)) for s in flow]


def test_a_chain_runs_back_from_what_is_finished() -> None:
    flow = flow_of(cut_from("leek", "soup", {"operation": "sweat", "fraction": HALF}, "boil"))
    assert grams(flow, 100) == [(200, 100), (100, 100)]
    assert [step.source for step in flow] == ["our test", "no yield entered: nothing is lost"]


def test_each_input_weighs_from_its_step_on_and_the_last_one_is_where_weight_is_lost() -> None:
    """1 kg is sweated, 3 kg boiled, 3.5 kg blended into 3.2 kg."""
    flow = flow_of(soup("3.2 kg", (0, 1, 2), None, None, None))
    assert grams(flow, 3200) == [(1000, 1000), (3000, 3000), (3500, 3200)]


def test_a_stated_yield_holds_and_the_nearest_open_step_explains_the_rest() -> None:
    """Blending loses nothing, so 0.3 kg of 3 kg boil away."""
    flow = flow_of(soup("3.2 kg", (0, 1, 2), None, None, 1.0))
    assert grams(flow, 3200) == [(1000, 1000), (3000, 2700), (3200, 3200)]


def test_a_step_after_the_last_input_explains_where_all_before_it_state_a_yield() -> None:
    """Leek sweats to a half; 3 kg are boiled and blended into 2 kg."""
    flow = flow_of(soup("2 kg", (0, 1, 1), 0.5, 1.0, None))
    assert grams(flow, 2000) == [(1000, 500), (3000, 3000), (3000, 2000)]


def test_a_yield_of_the_operation_on_the_recipe_is_stated_too() -> None:
    file = file_of(soup("3 kg", (0, 1, 1), None, None, 1.0))
    file["operations"][1]["yields"] = [{"food": "soup", "fraction": 0.9, "source": "our test"}]
    kitchen = read(file)
    catalog = Catalog(kitchen)
    made = catalog.components["soup"]
    assert measured_step(catalog, made) == 0
    flow = route_flow(catalog, Converter(kitchen), made)
    assert flow[1].fraction == pytest.approx(0.9)
    assert flow[1].source == "our test"


def test_every_yield_stated_and_the_output_measured_cannot_be() -> None:
    with pytest.raises(FlowError, match="every step states a yield"):
        _ = route_flow_unread(soup("2 kg", (0, 1, 1), 0.5, 1.0, 1.0))


def test_what_goes_in_later_cannot_weigh_more_than_what_is_made() -> None:
    with pytest.raises(FlowError, match="goes in after 'sweat'"):
        _ = route_flow_unread(soup("2.5 kg", (0, 1, 1), None, 1.0, 1.0))


def route_flow_unread(component: File) -> Flow:
    """Flow of a kitchen that the file's check would refuse."""
    kitchen = read(file_of(soup("3 kg", (0, 0, 0), None, None, None)))
    model = type(kitchen.components[0]).model_validate(component)
    catalog = Catalog(kitchen.model_copy(update={"components": (model,)}))
    return route_flow(catalog, Converter(catalog.kitchen), model)
