"""When food is ready: later than the hands that put it on where nobody takes it out."""

from planner.lots.types import Lot, Part


def minutes_alone(lot: Lot) -> int:
    """Minutes after its last task until a lot is done by itself; 0 where it is taken out."""
    return 0 if any(item.part is Part.FINISH for item in lot.tasks) else lot.unattended
