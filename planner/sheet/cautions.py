"""The usual cautions, in plain words, for the work of one batch.

They remind trained people and replace no training; where a limit is set by law, the local food code
governs. Wording: common practice, no source, but where a line gives one.
"""

from planner.kitchen.foods import Component, Holding
from planner.kitchen.safety import (
    COLD_HOLDING_C,
    COLD_HOLDING_F,
    HOT_HOLDING_C,
    HOT_HOLDING_F,
    LOCAL_CODE,
)
from planner.kitchen.work import Caution, Operation
from planner.lots.types import Lot, Part
from planner.schedule.timetable import Lead
from planner.sheet.view import PlanView

WASH_HANDS = "Wash hands before this batch."
CLEAN_FIRST = "Clean and sanitise board, knife and tools before this batch."
KNIFE = (
    "Knife: guiding hand with fingertips curled behind the knuckles; board on a damp towel; "
    "carry the knife point down."
)
MACHINE = "Machine: guard on, trained cooks only; switch off and unplug before reaching in."
HOT_FAT = (
    "Hot fat: lower food in away from you, keep water out, never leave it unattended; "
    "a lid and no water on a fat fire."
)
STEAM = "Steam: open lids and doors away from you, sleeves down."
HOT_SURFACE = "Hot surfaces: dry cloth or mitts; call 'hot' when carrying."
LIFTING = "Heavy: lift with two people or from a trolley, knees bent."
TEMPERATURE = (
    "Temperature: reach the one given, checked inside with a clean probe thermometer; "
    f"{LOCAL_CODE}."
)
COOK_THROUGH = (
    f"Cook through: check the temperature inside with a clean probe thermometer; {LOCAL_CODE}."
)
COLD = (
    f"Hold cold: {COLD_HOLDING_C:g} C ({COLD_HOLDING_F:g} F) or below (FDA Food Code 3-501.16); "
    f"cool cooked food in shallow pans or on ice; {LOCAL_CODE}."
)
HOT = (
    f"Hold hot: {HOT_HOLDING_C:g} C ({HOT_HOLDING_F:g} F) or above (FDA Food Code 3-501.16); "
    f"{LOCAL_CODE}."
)

_WORDS: dict[Caution, str] = {
    Caution.KNIFE: KNIFE,
    Caution.MACHINE: MACHINE,
    Caution.HOT_FAT: HOT_FAT,
    Caution.STEAM: STEAM,
    Caution.HOT_SURFACE: HOT_SURFACE,
    Caution.LIFTING: LIFTING,
}
_HEAT = frozenset({Caution.HOT_FAT, Caution.STEAM, Caution.HOT_SURFACE})


def is_heated(operation: Operation) -> bool:
    """Whether the operation cooks: what it loses evaporates and is no trim."""
    return operation.cooks_through or bool(_HEAT & operation.cautions)


def cautions(view: PlanView, part: Part, lots: tuple[Lot, ...], lead: Lead) -> tuple[str, ...]:
    """Cautions for one batch: hands and surfaces first, then tools, allergens, temperatures."""
    operation = view.operation(lots[0])
    lines = [WASH_HANDS] if lead.hand_wash else []
    lines += [CLEAN_FIRST] if lead.clean else []
    lines += [
        words
        for caution, words in _WORDS.items()
        if caution in operation.cautions and (part is Part.WORK or caution is not Caution.KNIFE)
    ]
    lines += _hygiene(view, lots)
    if part is not Part.CHECK:
        lines += _temperatures(view, lots, operation)
    return tuple(lines)


def allergens(lots: tuple[Lot, ...]) -> tuple[str, ...]:
    """Allergens in any of the lots, by name."""
    return tuple(sorted(frozenset[str]().union(*(lot.allergens for lot in lots))))


def _hygiene(view: PlanView, lots: tuple[Lot, ...]) -> list[str]:
    family = view.problem.families[view.problem.tasks[lots[0].tasks[0].task].family]
    lines = []
    if family.hygiene.raw_animal:
        lines.append(
            f"Raw {family.hygiene.raw_animal}: keep below and apart from food eaten as it is; "
            "wash hands, clean and sanitise after."
        )
    present = allergens(lots)
    if present:
        lines.append(
            f"Allergens: {', '.join(present)}. Own tools and containers; label; clean and sanitise "
            "after."
        )
    return lines


def _temperatures(view: PlanView, lots: tuple[Lot, ...], operation: Operation) -> list[str]:
    lines = []
    if any(view.step(lot).temperature_c is not None for lot in lots):
        lines.append(TEMPERATURE)
    elif operation.cooks_through:
        lines.append(COOK_THROUGH)
    finished = [view.catalog.components[lot.component] for lot in lots if lot.finishes]
    if any(_held(component, Holding.COLD) for component in finished):
        lines.append(COLD)
    if any(_held(component, Holding.HOT) for component in finished):
        lines.append(HOT)
    return lines


def _held(component: Component, where: Holding) -> bool:
    return component.tcs and component.storage is where
