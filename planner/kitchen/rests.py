"""When a cook's breaks may be: as the shift states them, or as the kitchen's rest rules ask for.

Every window here is such that the rules hold wherever in it each break comes to lie, so that
whoever places them needs to know nothing of the rules.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from planner.kitchen.base import clock_minutes
from planner.kitchen.document import Rules
from planner.kitchen.work import RestRule, Shift
from planner.stretches import first_places

_QUIET = 60
"""No break that nobody stated lies so near the start of a shift, or its end, in minutes, where the
rules leave a choice: common practice, no source."""


@dataclass(frozen=True, slots=True)
class RestWindow:
    """A break of so many minutes, and between when it starts (minutes after midnight)."""

    minutes: int
    earliest: int
    latest: int


@dataclass(frozen=True, slots=True)
class Spell:
    """A stretch of work without a rest that is longer than a rule allows."""

    since: int
    until: int
    rule: RestRule


def rests_of(shift: Shift, rules: Rules) -> tuple[RestWindow, ...]:
    """Breaks of a shift by their earliest start: those stated, or else those the rules ask for."""
    if shift.breaks:
        return _by_time(
            RestWindow(
                one.minutes,
                clock_minutes(one.start),
                clock_minutes(one.start if one.latest is None else one.latest),
            )
            for one in shift.breaks
        )
    found: tuple[RestWindow, ...] = ()
    for rule in sorted(rules.rest_rules, key=lambda rule: -rule.minutes):
        found = _by_time((*found, *_asked_for(shift, found, rule)))
    return found


def latest_end(shift: Shift, rules: Rules) -> int:
    """When all work ends at the latest: overtime, as far as the rest rules leave any."""
    end = clock_minutes(shift.end)
    found = end + shift.overtime_minutes
    for rule in rules.rest_rules:
        last = _counted(shift, rests_of(shift, rules), rule)[-1]
        found = min(found, max(end, last.earliest + last.minutes + _most(rule)))
    return found


def too_long(shift: Shift, rules: Rules) -> Spell | None:
    """The first stretch of a shift that may be longer without a rest than a rule allows."""
    for rule in rules.rest_rules:
        marks = _counted(shift, rests_of(shift, rules), rule)
        end = RestWindow(0, clock_minutes(shift.end), clock_minutes(shift.end))
        for one, after in pairwise([*marks, end]):
            since = one.earliest + one.minutes
            if after.latest - since > _most(rule):
                return Spell(since, after.latest, rule)
    return None


def have_room(rests: Sequence[RestWindow], taken: Sequence[tuple[int, int]]) -> bool:
    """Whether all breaks find a place beside what is taken."""
    windows = [(rest.minutes, rest.earliest, rest.latest) for rest in rests]
    return first_places(windows, taken) is not None


def _by_time(rests: Iterable[RestWindow]) -> tuple[RestWindow, ...]:
    return tuple(sorted(rests, key=lambda rest: (rest.earliest, rest.latest)))


def _asked_for(shift: Shift, known: tuple[RestWindow, ...], rule: RestRule) -> Iterator[RestWindow]:
    """What is lacking for a rule between the breaks that there are already."""
    start, end = clock_minutes(shift.start), clock_minutes(shift.end)
    marks = _counted(shift, known, rule)
    for one, after in pairwise(marks):
        before = (after.latest, after.latest, after.earliest - rule.minutes)
        yield from _spread(one.earliest + one.minutes, before, rule, start, end)
    last = marks[-1]
    after_all = (end, end + shift.overtime_minutes, end)
    yield from _spread(last.earliest + last.minutes, after_all, rule, start, end)


def _spread(
    since: int, until: tuple[int, int, int], rule: RestRule, start: int, end: int
) -> Iterator[RestWindow]:
    """As few breaks as a stretch needs, each with as wide a window as all can have.

    ``until``: the end of the stretch, the same with overtime, and the latest start of a break in
    it. Let A be the longest spell and m the minutes of a break. With n breaks in windows of the
    same width w, break k starts within since + k (A - w) + (k - 1) m and w after that: then no
    spell is longer than A wherever each lies, the last among them if w is no more than
    ((n + 1) A + n m - length) / n.
    """
    most, minutes = _most(rule), rule.minutes
    count = -(-(until[0] - since - most) // (most + minutes))
    if count <= 0:
        return
    reach = (count + 1) * most + count * minutes
    width = (reach - min(until[1] - since, reach)) // count
    for number in range(1, count + 1):
        earliest = since + number * (most - width) + (number - 1) * minutes
        latest = min(earliest + width, until[2])
        quiet = max(earliest, min(start + _QUIET, latest))
        yield RestWindow(minutes, quiet, max(quiet, min(latest, end - minutes - _QUIET)))


def _most(rule: RestRule) -> int:
    return round(rule.after_hours * 60)


def _counted(shift: Shift, rests: tuple[RestWindow, ...], rule: RestRule) -> list[RestWindow]:
    """The start of the shift, as a rest of no minutes, and the breaks that count for a rule."""
    start = clock_minutes(shift.start)
    return [
        RestWindow(0, start, start),
        *(rest for rest in rests if rest.minutes >= rule.minutes),
    ]
