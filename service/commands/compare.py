"""``compare``: a day as it is and with changes, side by side."""

import datetime as dt
import threading
from collections.abc import Iterator
from pathlib import Path

from pydantic import TypeAdapter

from planner.clock import clock
from planner.morning import PlanOptions
from planner.schedule.search import StopSearch
from planner.whatif.compare import Comparison
from planner.whatif.compare import compare as planned
from planner.whatif.people import NOTICED, BatchMove, BatchSeen
from service.commands.changes import Wanted, changed_kitchen
from service.commands.display import PlanDisplay
from service.commands.exits import Exit
from service.commands.inputs import day_of, usable_kitchen
from service.commands.interrupts import stop_on_interrupt
from service.commands.output import remarks, results, say, warn
from service.commands.plan import STANDARD_OUTPUT
from service.commands.stopping import reporter
from service.errors import UserError
from service.stored_words import STOPPED_EARLY
from service.values import PlanChoices
from service.whole_files import write_whole
from web.presenters.clock import long_date


def compare(
    path: Path,
    date: dt.datetime | None,
    choices: PlanChoices,
    wanted: Wanted,
    *,
    json_out: Path | None,
) -> Exit:
    """Plan both, and say what differs."""
    _, kitchen = usable_kitchen(path)
    day = day_of(kitchen, date)
    changed = changed_kitchen(kitchen, day, wanted)
    options = PlanOptions(
        choices.seconds, choices.deterministic_limit, choices.seed, choices.workers
    )
    stop = threading.Event()
    with stop_on_interrupt(stop), PlanDisplay(remarks(), choices) as display:
        report = reporter(display, stop, StopSearch)
        try:
            found = planned(
                kitchen,
                changed,
                day,
                options,
                report,
                lambda name: display.say(f"Planning {name}:"),
            )
        except ValueError as error:
            raise UserError(f"{path}: {error}") from None
    if stop.is_set():
        warn(STOPPED_EARLY)
    if json_out is not None:
        _write(found, json_out)
    if json_out != STANDARD_OUTPUT:
        for line in comparison_lines(found, wanted.words()):
            say(line)
    return Exit.ON_TIME


def comparison_lines(found: Comparison, words: str) -> Iterator[str]:
    """The two plans in a table, then what changes for people."""
    yield f"{long_date(found.date)}: as it is, and {words}"
    yield f"  {'':<28}{'as it is':>12}{'changed':>12}{'difference':>12}"
    for name, before, after in _rows(found):
        form = "," if isinstance(before, int) else ",.2f"
        change = f"{after - before:+{form}}" if after != before else "0"
        yield f"  {name:<28}{before:>12{form}}{after:>12{form}}{change:>12}"
    people = found.people
    yield "For people:"
    yield f"  {people.kept} batches stay with their cook at about their time"
    yield from _moves("at another cook", people.moved)
    yield from _moves(f"earlier by more than {NOTICED} min", people.earlier)
    yield from _moves(f"later by more than {NOTICED} min", people.later)
    yield from _seen("only with the change", people.added)
    yield from _seen("only as it is", people.dropped)


def _rows(found: Comparison) -> Iterator[tuple[str, float, float]]:
    before, after = found.as_it_is, found.changed
    yield "portions short", before.short_portions, after.short_portions
    if before.short_kilos or after.short_kilos:
        yield "kg short of par or batch", before.short_kilos, after.short_kilos
    yield "minutes late in all", before.late_minutes, after.late_minutes
    yield "minutes of work", before.labor, after.labor
    yield "minutes of overtime", before.overtime, after.overtime
    yield "minutes paid", before.paid, after.paid
    yield f"wages, {found.currency}", before.wages, after.wages


def _moves(what: str, moves: tuple[BatchMove, ...]) -> Iterator[str]:
    yield f"  {len(moves)} {what}{':' if moves else ''}"
    for one in moves:
        before, after = clock(one.start_before), clock(one.start_after)
        if one.cook_before == one.cook_after:
            yield f"    {one.title}, {one.cook_before}: {before} → {after}"
        else:
            yield f"    {one.title}: {one.cook_before} {before} → {one.cook_after} {after}"


def _seen(what: str, batches: tuple[BatchSeen, ...]) -> Iterator[str]:
    yield f"  {len(batches)} {what}{':' if batches else ''}"
    for one in batches:
        yield f"    {one.title}, {one.cook} {clock(one.start)}"


def _write(found: Comparison, out: Path) -> None:
    text = TypeAdapter(Comparison).dump_json(found, indent=1).decode()
    if out == STANDARD_OUTPUT:
        results().out(text)
        return
    try:
        write_whole(out, f"{text}\n")
    except OSError as error:
        raise UserError(
            f"{error.filename}: it cannot be written ({error.strerror}). Name another place."
        ) from None
    warn(f"Comparison: {out}")
