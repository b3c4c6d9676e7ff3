"""Station set-up: what each cook puts ready before the first batch.

Source: common practice, no source.
"""

from collections.abc import Iterable

from planner.sheet.types import SheetBatch

BOARD = "Board secured on a damp towel or non-slip feet."
KNIVES = "Knives clean, honed evenly on both sides, laid on a towel."
CONTAINERS = "Containers ready for raw, for finished and for waste."
SCALE = "Scale on and tared."
SANITISER = "Sanitiser and clean cloths ready; hand-wash sink stocked; hands washed."


def set_up_lines(batches: tuple[SheetBatch, ...]) -> tuple[str, ...]:
    """Set-up for one cook's batches; without batches there is nothing to set up."""
    if not batches:
        return ()
    lines = [BOARD, KNIVES, CONTAINERS, SCALE, SANITISER]
    equipment = _once(name for batch in batches for name in batch.equipment)
    if equipment:
        lines.append(f"Equipment: {', '.join(equipment)}.")
    containers = _containers(batches)
    if containers:
        lines.append(f"Containers and labels: {', '.join(containers)}.")
    return tuple(lines)


def _containers(batches: tuple[SheetBatch, ...]) -> list[str]:
    lines = []
    for batch in batches:
        for output in batch.outputs:
            label = output.label
            if label is None or label.container is None:
                continue
            count = f"{label.containers} x " if label.containers is not None else ""
            lines.append(f"{count}{label.container} ({label.component})")
    return _once(lines)


def _once(names: Iterable[str]) -> list[str]:
    return list(dict.fromkeys(names))
