"""What people must be told of a morning planned anew, in whole sentences."""

from planner.clock import clock
from planner.kitchen.catalog import Catalog
from planner.kitchen.safety import LOCAL_CODE
from planner.lots.types import Lot
from planner.replan.begun import Standing
from planner.replan.residual import Residual
from planner.replan.stock import Left, Source
from planner.schedule.timetable import Timetable
from planner.wording import grams_text, sentence


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
            sentence(
                "{work} is under way and nobody can see to it: somebody must, or it is stopped "
                "and discarded; {local_code}.",
                work=_work(catalog, lot),
                local_code=LOCAL_CODE,
            )
            for lot in alone
        ),
        *(_move(catalog, lot) for lot in day.interrupted),
        *(
            sentence(
                "{work}: {share:.0%} of it is done; the rest is planned anew.",
                work=_work(catalog, one.lot),
                share=one.share,
            )
            for one in day.begun
            if one.share < 1 and (one.lot.id, "") not in settled
        ),
    )


def _discard(catalog: Catalog, source: Source, now: int, *, again: bool) -> str:
    what = sentence(
        "Discard {amount} of {name}",
        amount=grams_text(source.grams),
        name=catalog.name(source.key[0]),
    )
    after = catalog.operations[source.begun.lot.operation].name
    if source.begun.spoiled:
        return sentence(
            "{what} (after {after}): it is spoiled, and is made again where it is still wanted.",
            what=what,
            after=after,
        )
    by = clock(now if source.latest is None else source.latest)
    past = source.latest is None or source.latest < now
    when = (
        sentence("it had to go on by {at}", at=by)
        if past
        else sentence("nobody can go on with it by {at}", at=by)
    )
    then = (
        sentence("is made again where it is still wanted")
        if again
        else sentence("nobody was to go on with it")
    )
    return sentence(
        "{what} (after {after}): {when}, and {then}; {local_code}.",
        what=what,
        after=after,
        when=when,
        then=then,
        local_code=LOCAL_CODE,
    )


def _move(catalog: Catalog, lot: Lot) -> str:
    return sentence(
        "{work} lost its equipment: check its temperature, move it or discard it; it "
        "is planned again from the start; {local_code}.",
        work=_work(catalog, lot),
        local_code=LOCAL_CODE,
    )


def _work(catalog: Catalog, lot: Lot) -> str:
    return f"{catalog.operations[lot.operation].name} {catalog.name(lot.food)}"
