"""Why a batch is when it is, and why this cook has it."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from planner.binding.links import Kind, Link, holding
from planner.check.timetable import check_timetable
from planner.explain.cooks import OtherCook, other_cooks
from planner.explain.late import Step, steps_to
from planner.explain.trials import Outcome
from planner.explain.words import Morning, hold_sentence, lead_sentences
from planner.lots.types import Part
from planner.schedule.search import SearchOptions
from planner.sheet.runs import Run
from planner.wording import sentence

_MOST_EARLIER = 120
"""Minutes by which a batch that nothing holds is moved at most, to see how far it could go."""


class UnknownBatch(KeyError):  # noqa: N818  (read as a word: "unknown batch")
    """The plan has no batch of this number; says which it has."""

    def __init__(self, number: int, most: int) -> None:
        known = (
            sentence("the plan has batches 1 to {most}", most=most)
            if most
            else sentence("the plan has no batches")
        )
        super().__init__(
            sentence("{number}: there is no such batch; {known}", number=number, known=known)
        )

    def __str__(self) -> str:
        return str(self.args[0])


@dataclass(frozen=True, slots=True)
class BatchReasons:
    """Why then, why this cook.

    Attributes
    ----------
    number, title, cook, start, end
        The batch as on the sheet; minutes after midnight, lead included.
    then
        Everything that holds it there, a sentence each; to begin earlier, all must give way.
    before
        What the cook does before the food, and which surface is cleaned after what.
    back
        The chain from here to the start of the day, the latest step first.
    others
        Everybody else, and what it would be with them.
    unchanged
        The best known of the same morning with nothing changed, to compare what was tried with;
        None where nothing was.
    """

    number: int
    title: str
    cook: str
    start: int
    end: int
    then: tuple[str, ...]
    before: tuple[str, ...]
    back: tuple[Step, ...]
    others: tuple[OtherCook, ...]
    unchanged: Outcome | None = None


def batch_reasons(
    morning: Morning, number: int, options: SearchOptions | None = None
) -> BatchReasons:
    """Explain the batch of that number.

    ``options`` bound each new planning with the batch at another cook; None: none is tried.

    Raises
    ------
    UnknownBatch
        The plan has no such batch.
    """
    run = next((one for one in morning.runs if one.number == number), None)
    if run is None:
        raise UnknownBatch(number, len(morning.runs))
    first = run.assignments[0].task
    others, unchanged = other_cooks(morning, run, options)
    return BatchReasons(
        number=number,
        title=morning.title(run),
        cook=run.cook.name,
        start=run.start,
        end=run.end,
        then=tuple(_then(morning, run)),
        before=tuple(lead_sentences(morning, first)),
        back=steps_to(morning, first)[1:],
        others=others,
        unchanged=unchanged,
    )


def _by_hand(morning: Morning, run: Run) -> Iterator[str]:
    """What people hold of the batch, before what else holds it."""
    pins = {pin.lot: pin for pin in morning.plan.pins}
    held = [pins[lot.id] for lot in run.lots if lot.id in pins and run.part is Part.WORK]
    times = sorted((pin.begin, not pin.exactly) for pin in held if pin.begin is not None)
    if times:
        begin, loose = times[0]
        at = morning.clock(begin)
        yield (
            sentence("It is held by hand not to begin before {at}.", at=at)
            if loose
            else sentence("It is held by hand to begin at {at}.", at=at)
        )
    if any(pin.cook is not None for pin in held):
        yield sentence("It is held by hand for {cook}.", cook=run.cook.name)


def _then(morning: Morning, run: Run) -> Iterator[str]:
    yield from _by_hand(morning, run)
    links = holding(morning.tables, morning.incumbent, run.assignments[0].task)
    for link in links:
        if not _own_place(morning, run, link):
            yield hold_sentence(morning, link)
    if not links and not any(_by_hand(morning, run)):
        earlier = _could_be_earlier(morning, run)
        yield (
            sentence(
                "Nothing holds it: with all else as it is, it could begin {n} min earlier or "
                "more, at {at}.",
                n=earlier,
                at=morning.clock(run.start - earlier),
            )
            if earlier == _MOST_EARLIER
            else sentence(
                "Nothing holds it: with all else as it is, it could begin {n} min earlier, "
                "at {at}.",
                n=earlier,
                at=morning.clock(run.start - earlier),
            )
        )


def _own_place(morning: Morning, run: Run, link: Link) -> bool:
    """Whether a place is only in use by the same cook, whose line says as much."""
    if link.kind is not Kind.PLACE or link.other is None:
        return False
    return morning.incumbent.by_task[link.other].worker == run.worker


def _could_be_earlier(morning: Morning, run: Run) -> int:
    """Minutes by which the checker lets the first task of the batch begin earlier."""
    for minutes in range(1, _MOST_EARLIER + 1):
        if not _may_move(morning, run, minutes):
            return minutes - 1
    return _MOST_EARLIER


def _may_move(morning: Morning, run: Run, minutes: int) -> bool:
    first = run.assignments[0].task
    timetable = morning.plan.solution.timetable
    changed = tuple(
        replace(one, start=one.start - minutes, end=one.end - minutes) if one.task == first else one
        for one in timetable.assignments
    )
    return not check_timetable(morning.problem, replace(timetable, assignments=changed))
