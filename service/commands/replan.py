"""``replan``: the rest of a day planned anew from a plan file, after something has happened."""

import datetime as dt
import time
from collections.abc import Iterator
from pathlib import Path

from planner.clock import clock
from planner.kitchen.catalog import Catalog
from planner.kitchen.document import Kitchen
from planner.plan import Plan
from planner.plan_file.reading import PlanFileError, read_plan
from planner.replan.changes import Change, Kind
from planner.replan.document import replan_document
from planner.replan.events import UnknownEventError
from planner.replan.replan import Replan
from planner.replan.replan import replan as plan_rest
from planner.schedule.search import SearchOptions
from planner.schedule.timetable import Score, Term
from planner.troubles.words import trouble_line
from planner.wording import grams_text
from service.commands.event_options import EventOptions, events_of, now_of
from service.commands.exits import Exit
from service.commands.inputs import read_file, usable_kitchen
from service.commands.output import results, say, warn
from service.errors import UserError
from service.values import PlanChoices
from service.whole_files import write_whole

_STANDARD_OUTPUT = Path("-")


def replan(
    path: Path,
    plan_path: Path,
    date: dt.datetime | None,
    now: str,
    options: EventOptions,
    choices: PlanChoices,
    *,
    json_out: Path | None,
) -> Exit:
    """Say the first repaired plan at once, then the best one found."""
    _, kitchen = usable_kitchen(path)
    at = now_of(now)
    events = events_of(options, at)
    plan = _plan(kitchen, plan_path)
    if date is not None and date.date() != plan.date:
        raise UserError(f"--date: {date:%Y-%m-%d} is not the day of {plan_path}, {plan.date}.")
    catalog = Catalog(kitchen)
    quiet = json_out == _STANDARD_OUTPUT
    began = time.monotonic()

    def first(changes: tuple[Change, ...], score: Score) -> None:
        took = time.monotonic() - began
        tell = warn if quiet else say
        tell(f"First plan after {took:.1f} s: {_words(score)}.")
        for line in _change_lines(catalog, changes):
            tell(line)
        tell("")

    search = SearchOptions(
        choices.seconds, choices.deterministic_limit, choices.seed, choices.workers
    )
    try:
        found = plan_rest(kitchen, plan, at, events, search, first)
    except UnknownEventError as error:
        raise UserError(str(error)) from None
    _write(found, json_out)
    if not quiet:
        for line in _final_lines(catalog, found):
            say(line)
    return _exit_of(found)


def _plan(kitchen: Kitchen, path: Path) -> Plan:
    try:
        return read_plan(kitchen, read_file(path))
    except PlanFileError as error:
        raise UserError(f"{path}: {error}") from None


def _write(found: Replan, json_out: Path | None) -> None:
    if json_out is None:
        return
    text = replan_document(found).model_dump_json()
    try:
        if json_out == _STANDARD_OUTPUT:
            results().out(text)
        else:
            write_whole(json_out, text + "\n")
            warn(f"Replan file: {json_out}")
    except OSError as error:
        raise UserError(
            f"{error.filename}: it cannot be written ({error.strerror}). Name another place."
        ) from None


def _final_lines(catalog: Catalog, found: Replan) -> Iterator[str]:
    score = found.solution.score
    yield f"Plan from {clock(found.now)} on: {_words(score)}; {len(found.day.begun)} batches begun."
    yield from _change_lines(catalog, found.changes)
    for note in found.notes:
        yield f"NOTE: {note}"
    proven = any(one.term is Term.SHORT and one.proven for one in found.solution.bounds)
    for trouble in found.troubles:
        yield f"{trouble.kind.upper()}: {trouble_line(trouble, proven=proven)}"
    if not found.troubles:
        yield "Everything still due is made on time."
    yield "Cautions, allergens and temperatures are on the sheets. Your local food code governs."


def _words(score: Score) -> str:
    short = f"short {score.short} portions, " if score.short else ""
    return f"{short}late {score.tardiness} min (both weighted)"


def _change_lines(catalog: Catalog, changes: tuple[Change, ...]) -> Iterator[str]:
    """Changes by cook, in the order of the day; what nobody does any more comes last."""
    if not changes:
        yield "  Nobody's work changes."
    names = {cook.id: cook.name for cook in catalog.kitchen.cooks}
    for cook in [one.id for one in catalog.kitchen.cooks]:
        mine = [change for change in changes if change.cook == cook]
        if mine:
            yield f"{names[cook]}:"
        for change in mine:
            yield f"  {_span(change)}  {_what(change)}, {_why(names, change)}"
    gone = [change for change in changes if change.cook is None]
    if gone:
        yield "Nobody:"
    for change in gone:
        before = "" if change.cook_before is None else f", was {names[change.cook_before]}'s"
        start = "" if change.start_before is None else f" at {clock(change.start_before)}"
        yield f"  {_what(change)}, {_gone(change)}{before}{start}"


def _span(change: Change) -> str:
    if change.start is None or change.end is None:
        return ""
    return f"{clock(change.start)}-{clock(change.end)}"


def _what(change: Change) -> str:
    part = "" if change.part == "work" else f" ({change.part})"
    return f"{change.operation} {change.food}{part}, {grams_text(change.grams)} [{change.lot}]"


def _why(names: dict[str, str], change: Change) -> str:
    before = "" if change.start_before is None else f" {clock(change.start_before)}"
    if change.kind is Kind.MOVED and change.cook_before is not None:
        return f"from {names[change.cook_before]},{before}"
    return "new" if change.kind is Kind.ADDED else f"{change.kind}, was{before}"


def _gone(change: Change) -> str:
    return "not wanted any more" if change.kind is Kind.DROPPED else "not made"


def _exit_of(found: Replan) -> Exit:
    kinds = {trouble.kind for trouble in found.troubles}
    if "short" in kinds:
        return Exit.SHORT
    return Exit.LATE if "late" in kinds else Exit.ON_TIME
