"""``explain``: why then, why this cook; how something late came about; what is scarce."""

import datetime as dt
import itertools
import threading
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from planner.explain.batch import BatchReasons, UnknownBatch, batch_reasons
from planner.explain.cooks import OtherCook
from planner.explain.late import LateChain, Step, late_chains
from planner.explain.scarce import Scarce, ShadowValue, scarce_things
from planner.explain.trials import Outcome
from planner.explain.words import Morning
from planner.kitchen.document import Kitchen
from planner.plan import Plan
from planner.plan_file.reading import PlanFileError, read_plan
from planner.schedule.search import SearchOptions
from service.commands.display import PlanDisplay
from service.commands.exits import Exit
from service.commands.inputs import day_of, usable_kitchen
from service.commands.interrupts import stop_on_interrupt
from service.commands.output import remarks, say, warn
from service.commands.stopping import reporter
from service.errors import UserError
from service.planning import MakePlan, StopPlanning
from service.stored_words import STOPPED_EARLY
from service.values import PlanChoices


@dataclass(frozen=True, slots=True)
class Questions:
    """What is asked, and how long changes may be tried.

    ``seconds`` bounds each change, ``budget`` all changes of ``scarce`` together.
    """

    batch: int | None = None
    late: bool = False
    scarce: bool = False
    seconds: float = 2.0
    budget: float = 60.0


def explain(
    path: Path,
    date: dt.datetime | None,
    choices: PlanChoices,
    make: MakePlan,
    ask: Questions,
    *,
    plan_file: Path | None,
) -> Exit:
    """Answer about a plan that was written, or plan the day first; unasked, tell what is late."""
    _, kitchen = usable_kitchen(path)
    if plan_file is None:
        plan = _planned(path, kitchen, day_of(kitchen, date), choices, make)
    else:
        plan = _written(kitchen, plan_file, date)
    morning = Morning(kitchen, plan)
    tries = SearchOptions(
        seconds=ask.seconds,
        deterministic_limit=choices.deterministic_limit,
        seed=choices.seed,
        workers=choices.workers,
    )
    for number, lines in enumerate(_answers(morning, ask, tries)):
        if number:
            say("")
        for line in lines:
            say(line)
    return Exit.ON_TIME


def _planned(
    path: Path, kitchen: Kitchen, date: dt.date, choices: PlanChoices, make: MakePlan
) -> Plan:
    stop = threading.Event()
    with stop_on_interrupt(stop), PlanDisplay(remarks(), choices) as display:
        try:
            plan = make(kitchen, date, choices, reporter(display, stop, StopPlanning)).plan
        except ValueError as error:
            raise UserError(f"{path}: {error}") from None
    if stop.is_set():
        warn(STOPPED_EARLY)
    return plan


def _written(kitchen: Kitchen, path: Path, date: dt.datetime | None) -> Plan:
    """The plan in a plan file, whose batches have the numbers of the sheets written with it."""
    try:
        plan = read_plan(kitchen, path.read_bytes())
    except OSError as error:
        raise UserError(
            f"{path}: it cannot be read ({error.strerror}). Name an existing plan file."
        ) from None
    except PlanFileError as error:
        raise UserError(f"{path}: {error}.") from None
    if date is not None and date.date() != plan.date:
        raise UserError(f"--date {date.date()}: the plan file is of {plan.date}. Leave --date out.")
    return plan


def _answers(morning: Morning, ask: Questions, tries: SearchOptions) -> Iterator[list[str]]:
    if ask.batch is not None:
        try:
            reasons = batch_reasons(morning, ask.batch, tries if ask.seconds > 0 else None)
        except UnknownBatch as error:
            raise UserError(f"--batch: {error}.") from None
        yield list(batch_lines(morning, reasons))
    if ask.late or (ask.batch is None and not ask.scarce):
        yield list(late_lines(morning, late_chains(morning)))
    if ask.scarce:
        # In deterministic time a limit on the clock would make the answer depend on the machine.
        budget = None if tries.deterministic_limit is not None else ask.budget
        yield list(scarce_lines(scarce_things(morning, tries, budget)))


def batch_lines(morning: Morning, reasons: BatchReasons) -> Iterator[str]:
    """Why a batch is then, and why this cook has it."""
    yield (
        f"Batch {reasons.number}: {reasons.title}, {reasons.cook}, "
        f"{_span(morning, reasons.start, reasons.end)}"
    )
    yield "Why then:"
    for line in (*reasons.then, *reasons.before):
        yield f"  {line}"
    if reasons.back:
        yield "Back to the start of the day:"
        yield from _steps(morning, reasons.back)
    yield f"Why {reasons.cook}:"
    able = [other for other in reasons.others if other.able]
    if not able:
        yield f"  Nobody else can: only {reasons.cook} has the skill and the station, and is in."
    for other in (*able, *(one for one in reasons.others if not one.able)):
        yield f"  {_other(other, reasons.unchanged)}"


def late_lines(morning: Morning, chains: tuple[LateChain, ...]) -> Iterator[str]:
    """Each late item, and how it came about; what was told of one is not told again."""
    if not chains:
        yield "Nothing is late."
    told: set[Step] = set()
    for number, one in enumerate(chains):
        if number:
            yield ""
        yield f"LATE: {one.text}. What binds most: {one.binding}."
        fresh = list(itertools.takewhile(lambda step: step not in told, one.steps))
        yield from _steps(morning, fresh)
        if len(fresh) < len(one.steps):
            known = one.steps[len(fresh)]
            yield f"  {_what(morning, known)}: as above."
        told.update(one.steps)


def scarce_lines(found: Scarce) -> Iterator[str]:
    """What more of each scarce thing would bring, the most first."""
    yield f"As planned: {_standing(found.plan)}."
    yield f"Solved anew, nothing changed: {_standing(found.unchanged)}."
    helping = [one for one in found.values if one.helps]
    idle = [one for one in found.values if not one.helps]
    if helping:
        yield "What more would bring beyond that, each solved anew, what weighs most first:"
    for one in helping:
        yield f"  {one.text}: {_brings(one)}"
    if not helping:
        yield "Nothing that was tried brings anything beyond that."
    if idle:
        yield f"Tried, and of no use: {'; '.join(one.text for one in idle)}."
    if found.untried:
        yield f"Not tried, for want of time (--budget): {'; '.join(found.untried)}."


def _steps(morning: Morning, steps: Sequence[Step]) -> Iterator[str]:
    for step in steps:
        held = step.held or "Nothing in the plan holds it: it could begin earlier."
        yield f"  {_what(morning, step)}. {held}"


def _what(morning: Morning, step: Step) -> str:
    when = _span(morning, step.start, step.end)
    return f"{when}  {step.title} (batch {step.batch}, {step.cook})"


def _other(other: OtherCook, unchanged: Outcome | None) -> str:
    if other.outcome is None or unchanged is None:
        return f"{other.name} {other.words}."
    anew = _against(unchanged, other.outcome)
    return f"{other.name} {other.words}. With {other.name} at it, planned anew: {anew}."


def _against(before: Outcome, after: Outcome) -> str:
    """How an outcome differs from another."""
    return _more_or_less(
        after.left.portions - before.left.portions,
        after.left.kilos - before.left.kilos,
        after.left.late - before.left.late,
        after.labor - before.labor,
    )


def _brings(one: ShadowValue) -> str:
    return _more_or_less(-one.portions, -one.kilos, -one.late, -one.labor)


def _more_or_less(portions: int, kilos: int, late: int, labor: int) -> str:
    """Differences in words, the first things first."""
    parts = [
        f"{abs(change)} {more if change > 0 else less}"
        for change, more, less in (
            (portions, "more portions short", "fewer portions short"),
            (kilos, "kg more short of par or batch", "kg less short of par or batch"),
            (late, "min more late in all", "min less late in all"),
            (labor, "min more work", "min less work"),
        )
        if change
    ]
    return ", ".join(parts) or "as good"


def _standing(outcome: Outcome) -> str:
    left = outcome.left
    parts = [f"{left.portions} portions short"] if left.portions else []
    parts += [f"{left.kilos} kg short of par or batch"] if left.kilos else []
    parts += [f"{left.late} min late in all" if left.late else "nothing late"]
    return ", ".join([*parts, f"{outcome.labor} min of work"])


def _span(morning: Morning, start: int, end: int) -> str:
    return f"{morning.clock(start)}-{morning.clock(end)}"
