"""Whether a timetable keeps what people hold by hand."""

from collections.abc import Iterable, Iterator, Sequence

from planner.check.violation import Rule, Violation
from planner.clock import clock
from planner.lots.types import Lot, Part
from planner.pins.types import Pin
from planner.schedule.timetable import Timetable


def check_pins(
    pins: Iterable[Pin], lots: Sequence[Lot], cooks: Sequence[str], timetable: Timetable
) -> tuple[Violation, ...]:
    """Every pin that is not kept: of a lot that is not there or not made, too."""
    return tuple(_broken(pins, lots, cooks, timetable))


def _broken(
    pins: Iterable[Pin], lots: Sequence[Lot], cooks: Sequence[str], timetable: Timetable
) -> Iterator[Violation]:
    work_of = {lot.id: part.task for lot in lots for part in lot.tasks if part.part is Part.WORK}
    done = {a.task: a for a in timetable.assignments}
    for pin in pins:
        if pin.lot not in work_of:
            yield Violation(Rule.PIN, pin.lot, f"{pin.lot} is held by hand and is no lot")
            continue
        a = done.get(work_of[pin.lot])
        if a is None:
            yield Violation(Rule.PIN, pin.lot, f"{pin.lot} is held by hand and not made")
            continue
        if pin.cook is not None and cooks[a.worker] != pin.cook:
            yield Violation(
                Rule.PIN,
                pin.lot,
                f"{pin.lot} is held for {pin.cook}, but {cooks[a.worker]} does it",
            )
        if pin.begin is None:
            continue
        if a.start < pin.begin:
            yield Violation(
                Rule.PIN,
                pin.lot,
                f"{pin.lot} begins at {clock(a.start)}, held not before {clock(pin.begin)}",
            )
        if pin.exactly and a.start > pin.begin:
            yield Violation(
                Rule.PIN,
                pin.lot,
                f"{pin.lot} begins at {clock(a.start)}, held at {clock(pin.begin)}",
            )
