"""What people hold by hand on a day under way: of lots that have not begun, as far as it goes."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from planner.kitchen.catalog import Catalog
from planner.lots.types import Workload
from planner.pins.apply import expected, pinned
from planner.pins.checking import check_wishes, keepable
from planner.pins.types import Pin, PinError
from planner.replan.match import Match
from planner.replan.residual import Residual
from planner.schedule.problem import Problem
from planner.wording import sentence


@dataclass(frozen=True, slots=True)
class Wishes:
    """Pins for the rest of a day.

    ``strict``: they are asked for now, and refused where they cannot be; else they are from before,
    and given up where what has happened since keeps them from being.
    """

    pins: tuple[Pin, ...]
    strict: bool

    def without(self, lots: Iterable[str]) -> "Wishes":
        """The same but for some lots, by id."""
        gone = frozenset(lots)
        return replace(self, pins=tuple(pin for pin in self.pins if pin.lot not in gone))


@dataclass(frozen=True, slots=True)
class HeldRest:
    """The rest of a day with its pins, and those given up.

    ``problem`` is what is solved, ``known`` what people expect by what they hold.
    """

    problem: Problem
    known: Match
    pins: tuple[Pin, ...]
    given_up: tuple[PinError, ...]


def held_rest(catalog: Catalog, rest: Residual, known: Match, wishes: Wishes) -> HeldRest:
    """Hold what of ``wishes`` has not begun; what has is with whoever does it.

    Raises
    ------
    PinError
        What is asked for now cannot be.
    """
    workload = replace(rest.workload, lots=rest.workload.lots[: rest.new_lots])
    ids = {lot.id for lot in workload.lots}
    pins = tuple(pin for pin in wishes.pins if pin.lot in ids)
    given_up: tuple[PinError, ...] = ()
    if wishes.strict:
        check_wishes(catalog, workload, pins)
    else:
        pins, given_up = keepable(catalog, workload, pins)
    held = {pin.lot for pin in pins}
    left_out = tuple(i for i in known.left_out if workload.lots[i].id not in held)
    wanted = replace(known, old=expected(workload, pins, known.old), left_out=left_out)
    return HeldRest(pinned(workload, pins), wanted, pins, given_up)


def given_up_notes(catalog: Catalog, workload: Workload, errors: Iterable[PinError]) -> list[str]:
    """Which batches are not held any more, in words."""
    lots = {lot.id: lot for lot in workload.lots}
    found = []
    for error in errors:
        lot = lots.get(error.lot)
        name = error.lot
        if lot is not None:
            name = f"{catalog.operations[lot.operation].name} {catalog.name(lot.food)}"
        found.append(
            sentence(
                "{name} is not held by hand any more: {value} {message}.",
                name=name,
                value=error.value,
                message=error.message,
            )
        )
    return list(dict.fromkeys(found))
