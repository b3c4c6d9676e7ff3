"""What changes for people between two plans: batches at another cook, earlier or later."""

from collections import defaultdict
from dataclasses import dataclass

from planner.explain.words import Morning
from planner.lots.types import Part
from planner.sheet.runs import Run

NOTICED = 15
"""Minutes from which on people notice that a batch moved: common practice, no source."""

_Key = tuple[str, str, Part]


@dataclass(frozen=True, slots=True)
class BatchMove:
    """A batch in both plans, with its cook (name) and start (minutes, lead included) in each."""

    title: str
    cook_before: str
    cook_after: str
    start_before: int
    start_after: int


@dataclass(frozen=True, slots=True)
class BatchSeen:
    """A batch of one of the plans only."""

    title: str
    cook: str
    start: int


@dataclass(frozen=True, slots=True)
class PeopleChanges:
    """Batches at another cook; of the rest those earlier or later by over 15 minutes.

    ``kept`` counts those with the same cook at about the same time; ``added`` and ``dropped`` are
    in one plan only, since quantities differ or a batch was split or joined.
    """

    kept: int
    moved: tuple[BatchMove, ...]
    earlier: tuple[BatchMove, ...]
    later: tuple[BatchMove, ...]
    added: tuple[BatchSeen, ...]
    dropped: tuple[BatchSeen, ...]


def people_changes(before: Morning, after: Morning) -> PeopleChanges:
    """Match the batches of two plans by movement, food and part; of several, the closest."""
    old, new = _by_key(before), _by_key(after)
    pairs: list[tuple[Run, Run]] = []
    added: list[Run] = []
    dropped: list[Run] = []
    for key in dict.fromkeys([*old, *new]):
        matched, gone, come = _matched(old[key], new[key])
        pairs += matched
        dropped += gone
        added += come
    moves = [(one, _move(before, one, other)) for one, other in pairs]
    moves.sort(key=lambda pair: (pair[0].start, pair[0].number))
    moved = tuple(move for _, move in moves if move.cook_before != move.cook_after)
    stayed = [move for _, move in moves if move.cook_before == move.cook_after]
    earlier = tuple(one for one in stayed if one.start_before - one.start_after > NOTICED)
    later = tuple(one for one in stayed if one.start_after - one.start_before > NOTICED)
    return PeopleChanges(
        kept=len(stayed) - len(earlier) - len(later),
        moved=moved,
        earlier=earlier,
        later=later,
        added=_seen(after, added),
        dropped=_seen(before, dropped),
    )


def _by_key(morning: Morning) -> dict[_Key, list[Run]]:
    found: dict[_Key, list[Run]] = defaultdict(list)
    for run in morning.runs:
        family = run.family(morning.view)
        found[family.operation, family.food, run.part].append(run)
    return found


def _matched(old: list[Run], new: list[Run]) -> tuple[list[tuple[Run, Run]], list[Run], list[Run]]:
    """Pairs, the same cook first and then the closest in time; and what is left of each."""
    gone, come = list(old), list(new)
    ranked = sorted(
        ((one, other) for one in old for other in new),
        key=lambda pair: (
            pair[0].cook.id != pair[1].cook.id,
            abs(pair[0].start - pair[1].start),
            pair[0].number,
            pair[1].number,
        ),
    )
    pairs = []
    for one, other in ranked:
        if one in gone and other in come:
            gone.remove(one)
            come.remove(other)
            pairs.append((one, other))
    return pairs, gone, come


def _move(morning: Morning, one: Run, other: Run) -> BatchMove:
    return BatchMove(morning.title(one), one.cook.name, other.cook.name, one.start, other.start)


def _seen(morning: Morning, found: list[Run]) -> tuple[BatchSeen, ...]:
    found.sort(key=lambda run: (run.start, run.number))
    return tuple(BatchSeen(morning.title(run), run.cook.name, run.start) for run in found)
