"""What people must be told of a morning planned anew, in whole sentences."""

from planner.clock import clock
from planner.kitchen.catalog import Catalog
from planner.kitchen.safety import LOCAL_CODE
from planner.lots.types import Lot
from planner.replan.begun import Standing
from planner.replan.residual import Residual
from planner.replan.stock import Left, Source
from planner.schedule.timetable import Timetable
from planner.wording import grams_text


def stranded(rest: Residual, timetable: Timetable) -> tuple[Lot, ...]:
    """Lots under way that nobody is there to look after or take out."""
    done = {item.task for item in timetable.assignments}
    return tuple(
        lot
        for lot in rest.workload.lots[rest.new_lots :]
        if any(item.task not in done for item in lot.tasks)
    )


def notes_of(
    catalog: Catalog,
    day: Standing,
    left: Left,
    alone: tuple[Lot, ...],
    settled: frozenset[tuple[str, str]],
    *,
    again: bool,
) -> tuple[str, ...]:
    """Food to discard, food that lost its equipment or its cook, work that stopped in the midst.

    What is ``settled`` has been said before. ``again``: what is still wanted is made again.
    """
    return (
        *(
            _discard(catalog, source, day.now, again=again)
            for source in left.discarded
            if (source.begun.lot.id, source.key[0]) not in settled
        ),
        *(
            f"{_work(catalog, lot)} is under way and nobody can see to it: somebody must, or it is "
            f"stopped and discarded; {LOCAL_CODE}."
            for lot in alone
        ),
        *(_move(catalog, lot) for lot in day.interrupted),
        *(
            f"{_work(catalog, one.lot)}: {one.share:.0%} of it is done; the rest is planned anew."
            for one in day.begun
            if one.share < 1 and (one.lot.id, "") not in settled
        ),
    )


def _discard(catalog: Catalog, source: Source, now: int, *, again: bool) -> str:
    what = f"Discard {grams_text(source.grams)} of {catalog.name(source.key[0])}"
    after = catalog.operations[source.begun.lot.operation].name
    if source.begun.spoiled:
        return f"{what} (after {after}): it is spoiled, and is made again where it is still wanted."
    by = clock(now if source.latest is None else source.latest)
    past = source.latest is None or source.latest < now
    when = f"it had to go on by {by}" if past else f"nobody can go on with it by {by}"
    then = "is made again where it is still wanted" if again else "nobody was to go on with it"
    return f"{what} (after {after}): {when}, and {then}; {LOCAL_CODE}."


def _move(catalog: Catalog, lot: Lot) -> str:
    return (
        f"{_work(catalog, lot)} lost its equipment: check its temperature, move it or discard it; "
        f"it is planned again from the start; {LOCAL_CODE}."
    )


def _work(catalog: Catalog, lot: Lot) -> str:
    return f"{catalog.operations[lot.operation].name} {catalog.name(lot.food)}"
