"""Warnings about a kitchen file: settings that a food code may not allow.

They are no errors. A kitchen may hold a variance, a tested process or another edition of the code;
so each note names the section it comes from and leaves the word to the local food code.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from planner.kitchen.catalog import Catalog
from planner.kitchen.cooling import cooling_chains
from planner.kitchen.document import Kitchen
from planner.kitchen.foods import Component, Holding, Ingredient, RawAnimal, Step
from planner.kitchen.route import leaves_hot
from planner.kitchen.safety import (
    COLD_HOLDING_C,
    COOLING,
    DATE_MARK_DAYS,
    HOT_HOLDING_C,
    LOCAL_CODE,
    TIME_CONTROL_MINUTES,
    celsius,
    minimum_cook_celsius,
)

_GRINDING = ("grind", "mince")
_LONG_COOLING = 60
"""Minutes of cooling from which somebody should probe it; common practice, no source."""
_FISH = frozenset({RawAnimal.FISH})


@dataclass(frozen=True, slots=True)
class SafetyNote:
    """A warning: ``path`` in the kitchen file, ``text`` for people, ``section`` of the code."""

    path: str
    text: str
    section: str

    def __str__(self) -> str:
        return f"{self.path}: {self.text} (FDA Food Code {self.section}; {LOCAL_CODE})"


def cautions_of_kitchen(kitchen: Kitchen) -> tuple[SafetyNote, ...]:
    """Every warning, in the order of the file.

    A component is taken as raw while it holds raw animal food that no step from where it goes in,
    nor of what it is made of, cooks through.
    """
    catalog = Catalog(kitchen)
    notes: list[SafetyNote] = []
    for index, component in enumerate(kitchen.components):
        where = f"components[{index}]"
        notes += _keeping(component, where, catalog)
        notes += _cooking(component, where, catalog)
        notes += _cooling(component, where, catalog)
        notes += _unprobed(component, where, catalog)
        notes += _chilled_nowhere(component, where, catalog)
        notes += _waiting(component, where, kitchen.rules.uncontrolled_minutes)
        notes += _ready_but_raw(component, where, catalog)
    notes += _put_down(kitchen)
    notes += _sent_out_raw(kitchen, catalog)
    return tuple(notes)


def raw_animals_in(item: str, catalog: Catalog) -> frozenset[RawAnimal]:
    """Species of raw animal food that ``item`` still holds when it is ready for use."""
    return _raw_animals_in(item, catalog, frozenset())


def served_raw(catalog: Catalog) -> frozenset[str]:
    """Components with raw animal food in them that guests eat so, and all that goes into those.

    A component ready to eat that still holds raw animal food, and below it every component whose
    raw animal food reaches it.
    """
    found: set[str] = set()
    waiting = [
        component
        for component in catalog.components.values()
        if component.ready_to_eat and raw_animals_in(component.id, catalog)
    ]
    while waiting:
        component = waiting.pop()
        if component.id in found:
            continue
        found.add(component.id)
        last_kill = max(_kill_steps(component, catalog), default=-1)
        for taken in component.inputs:
            below = catalog.components.get(taken.item)
            if below and taken.after_step > last_kill and raw_animals_in(taken.item, catalog):
                waiting.append(below)
    return frozenset(found)


def _raw_animals_in(item: str, catalog: Catalog, above: frozenset[str]) -> frozenset[RawAnimal]:
    food = catalog.food(item)
    if isinstance(food, Ingredient):
        return frozenset() if food.raw_animal is None else frozenset({food.raw_animal})
    # ``above`` ends the walk on a file whose components hold each other.
    if item in above:
        return frozenset()
    steps = len(food.route)
    return _raw_at(food, catalog, steps - 1, steps, above | {item})


def raw_animals_at(
    component: Component, catalog: Catalog, step: int, *, after: bool = False
) -> frozenset[RawAnimal]:
    """Species of raw animal food in a component at a step; ``after`` it, when it is done.

    What goes in there is in it; what a step before has cooked through is not raw any more.
    """
    return _raw_at(component, catalog, step, step + after, frozenset({component.id}))


def _raw_at(
    component: Component, catalog: Catalog, step: int, done: int, above: frozenset[str]
) -> frozenset[RawAnimal]:
    """Species in what goes in up to ``step``, less what any of the ``done`` steps cooks through."""
    last_kill = max((kill for kill in _kill_steps(component, catalog) if kill < done), default=-1)
    return frozenset(
        species
        for taken in component.inputs
        if last_kill < taken.after_step <= step
        for item in (taken.item, *taken.may_use)
        for species in _raw_animals_in(item, catalog, above)
    )


def _kill_steps(component: Component, catalog: Catalog) -> list[int]:
    return [
        index
        for index, step in enumerate(component.route)
        if catalog.operations[step.operation].cooks_through
    ]


def _keeping(component: Component, where: str, catalog: Catalog) -> Iterator[SafetyNote]:
    if not component.tcs:
        return
    eaten_so = component.ready_to_eat or bool(_kill_steps(component, catalog))
    frozen = component.storage is Holding.FROZEN
    if eaten_so and not frozen and component.shelf_life_days > DATE_MARK_DAYS:
        yield SafetyNote(
            f"{where}.shelf_life_days",
            f"{component.name} is kept {component.shelf_life_days} days; ready-to-eat food that "
            f"needs temperature control keeps {DATE_MARK_DAYS} at {COLD_HOLDING_C:g} C or below, "
            "the day it is made being day 1",
            "3-501.17",
        )
    if component.storage is Holding.AMBIENT:
        yield SafetyNote(
            f"{where}.storage",
            f"{component.name} needs temperature control but is stored at room temperature; "
            "store it cold or hot, or mark it tcs: false if a tested recipe makes it safe",
            "3-501.16",
        )
    last = component.route[-1].temperature_c
    if component.storage is Holding.HOT and last is not None and last < HOT_HOLDING_C:
        yield SafetyNote(
            f"{where}.route[{len(component.route) - 1}].temperature_c",
            f"{component.name} is stored hot but leaves its route at {last:g} C; hot food is held "
            f"at {HOT_HOLDING_C:g} C or above",
            "3-501.16",
        )


def _cooking(component: Component, where: str, catalog: Catalog) -> Iterator[SafetyNote]:
    kills = _kill_steps(component, catalog)
    if not kills:
        return
    species = _raw_at(component, catalog, kills[-1], 0, frozenset({component.id}))
    if not species:
        return
    ground = any(_grinds(step) for step in component.route)
    least = max(minimum_cook_celsius(animal, ground) for animal in species)
    hit = [component.route[kill].temperature_c for kill in kills]
    if any(found is not None and found >= least for found in hit):
        return
    last = kills[-1]
    said = "gives no temperature" if hit[-1] is None else f"goes to {hit[-1]:g} C only"
    yield SafetyNote(
        f"{where}.route[{last}].temperature_c",
        f"{component.name}: '{component.route[last].operation}' cooks raw "
        f"{', '.join(sorted(species))}{' (ground)' if ground else ''} but {said}; {least:g} C "
        "inside, checked with a thermometer, makes it safe (whole roasts: lower for longer)",
        "3-401.11",
    )


def _grinds(step: Step) -> bool:
    return step.operation.startswith(_GRINDING) or (step.cut or "").startswith(_GRINDING)


def _cooling(component: Component, where: str, catalog: Catalog) -> Iterator[SafetyNote]:
    kills = _kill_steps(component, catalog)
    if not kills or not component.tcs or component.storage is not Holding.COLD:
        return
    first, whole = COOLING
    rule = (
        f"from {celsius(first.from_f):.0f} to {celsius(first.to_f):.0f} C within "
        f"{first.minutes // 60} h and to {celsius(whole.to_f):.0f} C within "
        f"{whole.minutes // 60} h in all"
    )
    below = component.route[kills[-1] + 1 :]
    if any(s.temperature_c is not None and s.temperature_c <= COLD_HOLDING_C for s in below):
        return
    yield SafetyNote(
        f"{where}.route",
        f"{component.name} is cooked and stored cold, but no later step brings it to "
        f"{COLD_HOLDING_C:g} C; add a chill step with that temperature_c: it must go {rule}",
        "3-501.14",
    )


def _unprobed(component: Component, where: str, catalog: Catalog) -> Iterator[SafetyNote]:
    """Hot food that is left to cool for an hour or more, and that nobody looks at."""
    if not component.tcs:
        return
    for index, step in enumerate(component.route):
        operation = catalog.operations[step.operation]
        alone = step.unattended_minutes
        alone = operation.unattended_minutes if alone is None else alone
        cold = step.temperature_c is not None and step.temperature_c <= celsius(COOLING[0].to_f)
        hot = any(leaves_hot(catalog, component, before) for before in range(index))
        probed = operation.finish_minutes or operation.check_every_minutes
        if cold and hot and alone >= _LONG_COOLING and not probed:
            yield SafetyNote(
                f"{where}.route[{index}].operation",
                f"{component.name} cools for {alone / 60:.1f} h in '{step.operation}' and nobody "
                "probes it; give the operation finish_minutes or check_every_minutes",
                "3-501.14",
            )


def _chilled_nowhere(component: Component, where: str, catalog: Catalog) -> Iterator[SafetyNote]:
    """Cooling that takes nothing up: any number of lots would cool at once."""
    for index in dict.fromkeys(chain.cold for chain in cooling_chains(catalog, component)):
        operation = catalog.operations[component.route[index].operation]
        if not operation.equipment:
            yield SafetyNote(
                f"{where}.route[{index}].operation",
                f"{component.name} is cooled in '{operation.id}', for which no chill capacity is "
                "stated; give the operation the equipment it fills (ice bath, blast chiller, "
                "shelf) with what one unit takes, or more is cooled at once than gets cold in time",
                "3-501.15",
            )


def _waiting(component: Component, where: str, limit: int) -> Iterator[SafetyNote]:
    if not component.tcs:
        return
    for index, step in enumerate(component.route):
        if step.hold is not Holding.AMBIENT:
            continue
        for field, minutes, word in (
            ("min_wait_minutes", step.min_wait_minutes, "at least"),
            ("max_wait_minutes", step.max_wait_minutes, "up to"),
        ):
            if minutes is None or minutes <= limit:
                continue
            past = minutes > TIME_CONTROL_MINUTES
            yield SafetyNote(
                f"{where}.route[{index}].{field}",
                f"{component.name} waits at room temperature {word} {minutes} min; the kitchen's "
                f"own limit for work in progress is {limit} min"
                + (f", and past {TIME_CONTROL_MINUTES // 60} h it is discarded" if past else ""),
                "3-501.16 and 3-501.19" if past else "3-501.16",
            )


def _put_down(kitchen: Kitchen) -> Iterator[SafetyNote]:
    """Work that may pause, on food that must not lie so long."""
    controlled = {s.operation for c in kitchen.components if c.tcs for s in c.route}
    for index, operation in enumerate(kitchen.operations):
        if operation.pausable and operation.id in controlled:
            yield SafetyNote(
                f"operations[{index}].pausable",
                f"{operation.name} may be put down over breaks; food that needs temperature "
                "control must not lie through one, so its lots are not",
                "3-501.16",
            )


def _ready_but_raw(component: Component, where: str, catalog: Catalog) -> Iterator[SafetyNote]:
    species = raw_animals_in(component.id, catalog) if component.ready_to_eat else frozenset()
    if species:
        yield SafetyNote(
            f"{where}.ready_to_eat",
            f"{component.name} is served with raw {', '.join(sorted(species))} in it: the menu "
            f"needs the consumer advisory{_parasites(species)}",
            "3-603.11",
        )


def _sent_out_raw(kitchen: Kitchen, catalog: Catalog) -> Iterator[SafetyNote]:
    """Raw animal food that prep hands to the line, in a dish."""
    for row, dish in enumerate(kitchen.dishes):
        for column, portion in enumerate(dish.components):
            food = catalog.food(portion.item)
            species = raw_animals_in(portion.item, catalog)
            # Told already where it is a component marked ready to eat.
            if not species or (isinstance(food, Component) and food.ready_to_eat):
                continue
            least = max(minimum_cook_celsius(animal) for animal in species)
            yield SafetyNote(
                f"dishes[{row}].components[{column}]",
                f"{food.name} goes raw to the line for {dish.name} ({', '.join(sorted(species))}): "
                f"cook it to {least:g} C inside; served raw or undercooked it needs the consumer "
                f"advisory{_parasites(species)}",
                "3-401.11 and 3-603.11",
            )


def _parasites(species: frozenset[RawAnimal]) -> str:
    return ", and the fish parasite destruction by freezing (3-402.11)" if species & _FISH else ""
