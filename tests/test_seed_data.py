"""The bundled kitchens are valid, and the demo holds what the planner is to be shown on.

That their figures follow from the sources they name is checked in ``outside/test_yields.py``.
"""

import datetime as dt
import re
from collections.abc import Iterator

import pytest

from planner.kitchen.allergens import allergens_of
from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import Converter
from planner.kitchen.document import Kitchen
from planner.kitchen.foods import Allergen, Component, Ingredient, RawAnimal
from planner.kitchen.reading import read_kitchen
from planner.kitchen.route import worked_foods
from planner.kitchen.work import Caution, Per
from seed_data import demo_bytes, small_bytes

DAY = dt.date(2026, 11, 25)
SOURCE = re.compile(r"USDA SR28 \d{5}: .+|common practice, no source|starting guess|from memory")


@pytest.fixture(scope="module")
def demo() -> Kitchen:
    return read_kitchen(demo_bytes())


@pytest.fixture(scope="module")
def small() -> Kitchen:
    return read_kitchen(small_bytes())


def yields_of(kitchen: Kitchen) -> Iterator[tuple[str, float, str]]:
    for operation in kitchen.operations:
        for entry in operation.yields:
            yield f"{operation.id} of {entry.food}", entry.fraction, entry.source
    for component in kitchen.components:
        for step in component.route:
            if step.fraction is not None:
                yield component.id, step.fraction.fraction, step.fraction.source


def test_demo_is_the_size_of_a_restaurants_day(demo: Kitchen) -> None:
    assert demo.as_of == DAY
    assert len(demo.dishes) >= 12
    assert len(demo.components) >= 40
    assert sum(cook.learns_from is None for cook in demo.cooks) == 5
    assert [cook.learns_from for cook in demo.cooks if cook.learns_from] == ["ines"]
    assert any(rest.latest for cook in demo.cooks for s in cook.shifts for rest in s.breaks)
    assert demo.rules.rest_rules
    assert any(operation.pausable for operation in demo.operations)
    assert demo.rules.changeovers.walks
    on_the_day = [service for service in demo.services if service.date == DAY]
    assert len(on_the_day) == 3
    assert [service.opens for service in on_the_day if service.guaranteed] == ["19:00"]
    assert all(service.overset > 0 for service in on_the_day if service.guaranteed)
    day_after = [service for service in demo.services if service.date == DAY + dt.timedelta(days=1)]
    assert len(day_after) == 2


def test_every_dish_of_the_demo_is_on_a_menu_and_every_component_is_used(demo: Kitchen) -> None:
    served = {line.dish for service in demo.services for line in service.mix}
    assert served == {dish.id for dish in demo.dishes}
    used = {portion.item for dish in demo.dishes for portion in dish.components}
    used |= {taken.item for component in demo.components for taken in component.inputs}
    assert {component.id for component in demo.components} <= used


def test_demo_has_raw_fish_served_raw_and_raw_poultry_cooked_to_74_c(demo: Kitchen) -> None:
    catalog = Catalog(demo)

    def species(component: Component) -> RawAnimal | None:
        bought = catalog.ingredients.get(worked_foods(catalog, component)[-1])
        return None if bought is None else bought.raw_animal

    by_species: dict[RawAnimal, list[Component]] = {animal: [] for animal in RawAnimal}
    for component in demo.components:
        found = species(component)
        if found is not None:
            by_species[found].append(component)
    assert any(component.ready_to_eat for component in by_species[RawAnimal.FISH])
    cooked = [
        step.temperature_c
        for component in by_species[RawAnimal.POULTRY]
        for step in component.route
        if catalog.operations[step.operation].cooks_through
    ]
    assert cooked
    assert all(reached is not None and reached >= 74 for reached in cooked)


def test_demo_has_herbs_that_may_not_be_early(demo: Kitchen) -> None:
    fresh = {component.id: component.fresh_hours for component in demo.components}
    assert all(fresh[herb] is not None for herb in ("parsley_chopped", "chives_cut", "dill_picked"))


def test_nuts_and_sesame_meet_food_without_them_on_one_station(demo: Kitchen) -> None:
    """An allergen clash: some surface takes both a food with it and a food without it."""
    allergens = allergens_of(demo)
    operations = Catalog(demo).operations
    for clash in (Allergen.TREE_NUT, Allergen.SESAME):
        touched: dict[str, set[bool]] = {}
        for component in demo.components:
            for step in component.route:
                operation = operations[step.operation]
                surfaces = {operation.station, *(use.equipment for use in operation.equipment)}
                for surface in surfaces:
                    touched.setdefault(surface, set()).add(clash in allergens[component.id])
        contact = {station.id for station in demo.stations if station.food_contact}
        contact |= {machine.id for machine in demo.equipment if machine.food_contact}
        assert any(touched[surface] == {True, False} for surface in contact & touched.keys())


def test_nut_free_banquet_has_no_nuts(demo: Kitchen) -> None:
    allergens = allergens_of(demo)
    banquet = next(service for service in demo.services if service.guaranteed)
    assert all(Allergen.TREE_NUT not in allergens[line.dish] for line in banquet.mix)


def test_demo_shows_what_a_planner_must_know(demo: Kitchen) -> None:
    assert any(component.par is not None for component in demo.components)
    assert any(component.batch_multiple is not None for component in demo.components)
    assert any(component.days_ahead for component in demo.components)
    assert any(taken.may_use for component in demo.components for taken in component.inputs)
    assert any(stock.after_step is not None for stock in demo.prepared)
    assert any(delivery.at >= "08:00" for delivery in demo.deliveries if delivery.date == DAY)
    assert any(not ingredient.counted for ingredient in demo.ingredients)
    assert any(fraction > 1 for _, fraction, _ in yields_of(demo))
    assert any(operation.per is not Per.KG for operation in demo.operations)
    assert any(operation.check_every_minutes for operation in demo.operations)
    shifts = [shift for cook in demo.cooks for shift in cook.shifts]
    assert any(shift.on_line for shift in shifts)
    assert sum(shift.flexible for shift in shifts) == 1


def test_one_cook_of_the_demo_may_not_use_machines(demo: Kitchen) -> None:
    alone = [cook for cook in demo.cooks if cook.learns_from is None]
    skilled = {cook.id: {entry.skill for entry in cook.skills} for cook in alone}
    assert [cook for cook, skills in skilled.items() if "machine" not in skills] == ["suri"]


def test_hot_blending_fills_the_jug_at_most_half(demo: Kitchen) -> None:
    catalog = Catalog(demo)
    converter = Converter(demo)
    for operation in demo.operations:
        if Caution.STEAM not in operation.cautions:
            continue
        for use in operation.equipment:
            jug = catalog.equipment[use.equipment]
            if jug.id == "blender":
                assert use.holds is not None
                assert jug.holds is not None
                assert converter.grams("squash_soup", use.holds) <= (
                    converter.grams("squash_soup", jug.holds) / 2
                )
    soup = catalog.components["squash_soup"]
    assert Caution.STEAM in catalog.operations[soup.route[-1].operation].cautions


def test_guidance_leaves_it_to_the_sheet_where_trim_goes(demo: Kitchen) -> None:
    """What a food's trim becomes is worked out for each batch; a fixed line would contradict it."""
    for operation in demo.operations:
        assert not (operation.yields and "stock" in operation.guidance), operation.id


def test_peeled_potatoes_wait_under_water(demo: Kitchen) -> None:
    potato = Catalog(demo).components["potato_large"]
    assert "cold water" in potato.route[0].note


def test_early_steps_on_onions_are_the_same_for_several_cuts(demo: Kitchen) -> None:
    """What the planner pools: one peel before cuts of different size."""
    onions = [
        component
        for component in demo.components
        if component.inputs[0].item == "onion" and component.makes is None
    ]
    assert len(onions) >= 3
    assert len({component.route[0] for component in onions}) == 1
    assert len({component.route[1].cut for component in onions}) == len(onions)


@pytest.mark.parametrize("which", ["demo", "small"])
def test_every_yield_weight_and_density_has_its_source(
    which: str, request: pytest.FixtureRequest
) -> None:
    kitchen: Kitchen = request.getfixturevalue(which)
    sources = [source for _, _, source in yields_of(kitchen)]
    foods: list[Ingredient | Component] = [*kitchen.ingredients, *kitchen.components]
    for food in foods:
        sources += [weight.source for weight in food.weights]
        sources += [food.density.source] if food.density is not None else []
    assert sources
    assert [source for source in sources if not SOURCE.fullmatch(source)] == []


def test_small_kitchen_can_be_worked_out_on_paper(small: Kitchen) -> None:
    assert small_bytes().count(b"\n") < 250
    assert len(small.dishes) == 3
    assert len(small.cooks) == 2
    assert len(small.services) == 1
    assert 5 <= len(small.components) <= 8
    assert sum(component.par is not None for component in small.components) == 1
    assert sum(ingredient.by_product for ingredient in small.ingredients) == 1
