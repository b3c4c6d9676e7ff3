"""Station set-up: what each cook puts ready before the first batch.

Source: common practice, no source.
"""

from collections import defaultdict

from planner.sheet.batch_types import SheetBatch
from planner.wording import sentence

BOARD = sentence("Board secured on a damp towel or non-slip feet.")
KNIVES = sentence("Knives clean, honed evenly on both sides, laid on a towel.")
CONTAINERS = sentence("Containers ready for raw, for finished and for waste.")
SCALE = sentence("Scale on and tared.")
SANITISER = sentence("Sanitiser and clean cloths ready; hand-wash sink stocked; hands washed.")


def set_up_lines(batches: tuple[SheetBatch, ...], equipment: tuple[str, ...]) -> tuple[str, ...]:
    """Set-up for one cook's batches and the equipment they use; without batches there is none."""
    if not batches:
        return ()
    lines = [BOARD, KNIVES, CONTAINERS, SCALE, SANITISER]
    if equipment:
        lines.append(sentence("Equipment: {list}.", list="; ".join(equipment)))
    containers = _containers(batches)
    if containers:
        lines.append(sentence("To fill and label: {list}.", list="; ".join(containers)))
    return tuple(lines)


def _containers(batches: tuple[SheetBatch, ...]) -> list[str]:
    """Containers by kind; where a component's density is not known, as many as it takes."""
    counts: dict[str, int] = defaultdict(int)
    uncounted: set[str] = set()
    for batch in batches:
        for output in batch.outputs:
            label = output.label
            if label is None or label.container is None:
                continue
            counts[label.container] += label.containers or 0
            if label.containers is None:
                uncounted.add(label.container)
    return [_counted(kind, count, kind in uncounted) for kind, count in counts.items()]


def _counted(kind: str, count: int, more: bool) -> str:
    if not count:
        return sentence("{kind} as needed", kind=kind)
    if more:
        return sentence("{n} x {kind} and more as needed", n=count, kind=kind)
    return f"{count} x {kind}"
