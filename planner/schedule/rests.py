"""Breaks of cooks: where they are, where else they could be, and how they make way for work."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from planner.schedule.problem import Problem, Worker
from planner.schedule.timetable import Timetable
from planner.stretches import first_places, last_free, next_free

Slot = tuple[int, int]
"""When a rest starts and ends."""


def slots_of(problem: Problem, timetable: Timetable) -> tuple[tuple[Slot, ...], ...]:
    """Per worker, where the timetable has each rest; as early as may be where it does not say."""
    stated = (*timetable.rests, *(() for _ in problem.workers[len(timetable.rests) :]))
    found = []
    for starts, worker in zip(stated, problem.workers, strict=False):
        known = starts if len(starts) == len(worker.rests) else [r.earliest for r in worker.rests]
        pairs = zip(known, worker.rests, strict=True)
        found.append(tuple((start, start + rest.minutes) for start, rest in pairs))
    return tuple(found)


def starts_of(slots: Iterable[Sequence[Slot]]) -> tuple[tuple[int, ...], ...]:
    """Slots as a timetable states them; empty where nobody has a rest."""
    starts = tuple(tuple(start for start, _ in own) for own in slots)
    return starts if any(starts) else ()


def walls_of(worker: Worker) -> tuple[Slot, ...]:
    """Stretches away that no plan can move: blocked ones and fixed rests, by start."""
    fixed = [(r.earliest, r.earliest + r.minutes) for r in worker.rests if not r.movable]
    return tuple(sorted([*worker.blocked, *fixed]))


def first_slots(worker: Worker) -> tuple[Slot, ...] | None:
    """Every rest as early as it can be, clear of what is blocked and of one another, or None.

    Rests that cannot move are facts, wherever they are.
    """
    windows = [(rest.minutes, rest.earliest, rest.latest) for rest in worker.rests]
    return first_places(windows, worker.blocked)


def slots_or_first(
    worker: Worker, wanted: Sequence[Slot], first: tuple[Slot, ...]
) -> tuple[Slot, ...]:
    """``wanted`` where every rest of the worker may be there, else ``first``."""
    if len(wanted) != len(worker.rests):
        return first
    for index, ((begin, end), rest) in enumerate(zip(wanted, worker.rests, strict=True)):
        if end - begin != rest.minutes or not rest.earliest <= begin <= rest.latest:
            return first
        others = [*worker.blocked, *wanted[:index], *wanted[index + 1 :]]
        if rest.movable and next_free(others, begin, rest.minutes) != begin:
            return first
    return tuple(wanted)


def paused(slots: Iterable[Slot], start: int, minutes: int) -> int:
    """Minutes of the rests that work of so many minutes is put down over."""
    total = 0
    for begin, end in sorted(slots):
        if start < begin < start + minutes + total:
            total += end - begin
    return total


@dataclass(frozen=True, slots=True)
class Way:
    """How rests make way for work: when it ends then, and where they are.

    ``again`` is None, or the end of a rest that does not: the lead can begin then.
    """

    end: int
    slots: tuple[Slot, ...]
    again: int | None = None


def make_way(
    worker: Worker,
    slots: tuple[Slot, ...],
    line: Sequence[Slot],
    stretch: tuple[int, int, int],
    *,
    pausable: bool,
) -> Way:
    """Find room for work among a cook's rests.

    ``line`` are the stretches that the cook works already, ``stretch`` where the lead begins, where
    the work does, and where it would end without a pause. A rest in the way goes elsewhere in its
    window if it can; else ``pausable`` work is put down over it.
    """
    busy, start, end = stretch
    spanned: set[int] = set()
    for index in sorted(range(len(slots)), key=slots.__getitem__):
        begin, finish = slots[index]
        if finish <= busy or end <= begin:
            continue
        elsewhere = _elsewhere(worker, slots, line, index, (busy, end))
        if elsewhere is not None:
            slots = (*slots[:index], elsewhere, *slots[index + 1 :])
        elif pausable and begin > start:
            spanned.add(index)
            end += finish - begin
        else:
            return Way(end, slots, finish)
    for index, (begin, finish) in enumerate(slots):
        # A pause may have stretched the work to where an earlier rest had gone.
        if index not in spanned and begin < end and busy < finish:
            return Way(end, slots, finish)
    return Way(end, slots)


def _elsewhere(
    worker: Worker, slots: tuple[Slot, ...], line: Sequence[Slot], index: int, stretch: Slot
) -> Slot | None:
    """Another place in a rest's window, after ``stretch`` or else before it."""
    rest = worker.rests[index]
    if not rest.movable:
        return None
    others = [slot for other, slot in enumerate(slots) if other != index]
    taken = [*worker.blocked, *others, *line, stretch]
    start = next_free(taken, max(rest.earliest, stretch[1]), rest.minutes)
    if start > rest.latest:
        start = last_free(taken, min(rest.latest, stretch[0] - rest.minutes), rest.minutes)
        if start < rest.earliest:
            return None
    return start, start + rest.minutes
