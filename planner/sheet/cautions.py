"""The usual cautions, in plain words, for the work of one batch.

They remind trained people and replace no training; where a limit is set by law, the local food code
governs. Wording: common practice, no source, but where a line gives one.
"""

from planner.kitchen.foods import Holding
from planner.kitchen.route import leaves_hot
from planner.kitchen.safety import (
    COLD_HOLDING_C,
    COLD_HOLDING_F,
    COOLING,
    HOT_HOLDING_C,
    HOT_HOLDING_F,
    LOCAL_CODE,
    celsius,
)
from planner.kitchen.work import Caution, Operation
from planner.lots.types import Lot, Part
from planner.schedule.problem import Family
from planner.schedule.timetable import Lead
from planner.sheet.labels import is_last_part
from planner.sheet.view import PlanView
from planner.wording import degrees, sentence

WASH_HANDS = sentence("Wash hands before this batch.")
CLEAN_FIRST = sentence("Clean and sanitise board, knife and tools before this batch.")
KNIFE = sentence(
    "Knife: guiding hand with fingertips curled behind the knuckles; board on a "
    "damp towel; carry the knife point down."
)
MACHINE = sentence(
    "Machine: guard on, trained cooks only; switch off and unplug before reaching in."
)
HOT_FAT = sentence(
    "Hot fat: lower food in away from you, keep water out, never leave it "
    "unattended; a lid and no water on a fat fire."
)
STEAM = sentence("Steam: open lids and doors away from you, sleeves down.")
HOT_SURFACE = sentence("Hot surfaces: dry cloth or mitts; call 'hot' when carrying.")
LIFTING = sentence("Heavy: lift with two people or from a trolley, knees bent.")
TEMPERATURE = sentence(
    "Temperature: reach the one given, checked inside with a clean probe "
    "thermometer; {local_code}.",
    local_code=LOCAL_CODE,
)
COOK_THROUGH = sentence(
    "Cook through: check the temperature inside with a clean probe thermometer; {local_code}.",
    local_code=LOCAL_CODE,
)
COLD = sentence(
    "Hold cold: {warm} or below (FDA Food Code 3-501.16); {local_code}.",
    warm=degrees(COLD_HOLDING_C, COLD_HOLDING_F),
    local_code=LOCAL_CODE,
)
HOT = sentence(
    "Hold hot: {warm} or above (FDA Food Code 3-501.16); {local_code}.",
    warm=degrees(HOT_HOLDING_C, HOT_HOLDING_F),
    local_code=LOCAL_CODE,
)

_LIMITS = ", ".join(
    sentence(
        "from {from_c:.0f} to {to_c:.0f} C ({from_f:g} to {to_f:g} F) within {n} h",
        from_c=celsius(limit.from_f),
        to_c=celsius(limit.to_f),
        from_f=limit.from_f,
        to_f=limit.to_f,
        n=limit.minutes // 60,
    )
    for limit in COOLING
)
COOL = sentence(
    "Cool fast: {limits} (FDA Food Code 3-501.14); shallow pans or ice, lid ajar until cold; "
    "{local_code}.",
    limits=_LIMITS,
    local_code=LOCAL_CODE,
)

_WORDS: dict[Caution, str] = {
    Caution.KNIFE: KNIFE,
    Caution.MACHINE: MACHINE,
    Caution.HOT_FAT: HOT_FAT,
    Caution.STEAM: STEAM,
    Caution.HOT_SURFACE: HOT_SURFACE,
    Caution.LIFTING: LIFTING,
}
_KEPT = {Holding.COLD: COLD, Holding.HOT: HOT}
_HEAT = frozenset({Caution.HOT_FAT, Caution.STEAM, Caution.HOT_SURFACE})


def is_heated(operation: Operation) -> bool:
    """Whether the operation cooks: what it loses evaporates and is no trim."""
    return operation.cooks_through or bool(_HEAT & operation.cautions)


def cautions(
    view: PlanView, family: Family, part: Part, lots: tuple[Lot, ...], lead: Lead
) -> tuple[str, ...]:
    """Cautions for one batch: hands and surfaces first, then tools, allergens, temperatures."""
    operation = view.operation(lots[0])
    lines = [WASH_HANDS] if lead.hand_wash else []
    lines += [CLEAN_FIRST] if lead.clean else []
    lines += [
        words
        for caution, words in _WORDS.items()
        if caution in operation.cautions and (part is Part.WORK or caution is not Caution.KNIFE)
    ]
    lines += _hygiene(family, lots)
    if part is not Part.CHECK:
        lines += _temperatures(view, lots, operation)
    elif any(cools_cooked(view, lot) for lot in lots):
        lines.append(COOL)
    packed = [lot for lot in lots if is_last_part(part, lot) and lot.finishes]
    return (*lines, *_holding(view, packed))


def allergens(lots: tuple[Lot, ...]) -> tuple[str, ...]:
    """Allergens in any of the lots, by name."""
    return tuple(sorted(frozenset[str]().union(*(lot.allergens for lot in lots))))


def _hygiene(family: Family, lots: tuple[Lot, ...]) -> list[str]:
    lines = []
    if family.hygiene.raw_animal:
        # A class of several species is named by all of them: 'beef+pork'.
        species, _, eaten_so = family.hygiene.raw_animal.replace("+", " and ").partition(", ")
        lines.append(
            sentence(
                "Raw {species}, {eaten_so}: board, knife and hands clean before it, and apart "
                "from raw food that will be cooked; clean and sanitise after.",
                species=species,
                eaten_so=eaten_so,
            )
            if eaten_so
            else sentence(
                "Raw {species}: keep below and apart from food eaten as it is; wash hands, "
                "clean and sanitise after.",
                species=species,
            )
        )
    present = allergens(lots)
    if present:
        lines.append(
            sentence(
                "Allergens: {list}. Own tools and containers; label; clean and sanitise after.",
                list=", ".join(present),
            )
        )
    return lines


def _temperatures(view: PlanView, lots: tuple[Lot, ...], operation: Operation) -> list[str]:
    if all(view.step(lot).temperature_c is None for lot in lots):
        raw = any(_was_raw_animal(view, lot) for lot in lots)
        return [COOK_THROUGH] if operation.cooks_through and raw else []
    return [TEMPERATURE, COOL] if any(cools_cooked(view, lot) for lot in lots) else [TEMPERATURE]


def _was_raw_animal(view: PlanView, lot: Lot) -> bool:
    """Whether raw animal food goes in: a beet is roasted by taste, not by a thermometer."""
    work = (item.task for item in lot.tasks if item.part is Part.WORK)
    families = (view.problem.families[view.problem.tasks[task].family] for task in work)
    return any(family.hygiene.raw_animal for family in families)


def cools_cooked(view: PlanView, lot: Lot) -> bool:
    """Whether cooked food is cooled, in one stage or the first of two; brining is not."""
    celsius_ = view.step(lot).temperature_c
    component = view.catalog.components[lot.component]
    hot = any(leaves_hot(view.catalog, component, index) for index in range(lot.step))
    hot = hot or view.operation(lot).cooks_through
    return hot and celsius_ is not None and celsius_ <= celsius(COOLING[0].to_f)


def _holding(view: PlanView, lots: list[Lot]) -> list[str]:
    """How finished food that needs temperature control is kept."""
    kept = {
        component.storage
        for lot in lots
        if (component := view.catalog.components[lot.component]).tcs
    }
    return [words for where, words in _KEPT.items() if where in kept]
