"""Where the floor stands: all ticks of a day folded into one truth.

The fold does not depend on the order in which ticks arrive, so that two devices that were without
network, and the server, come to the same.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from planner.floor.ticks import Act, Tick, Weight


@dataclass(frozen=True, slots=True)
class Said:
    """That something was said: when (minutes), by which cook, by which tick."""

    at: float
    cook: str
    key: str


@dataclass(frozen=True, slots=True)
class TaskState:
    """What is known of one task. None: nobody said so."""

    begun: Said | None = None
    done: Said | None = None
    heard: Said | None = None


@dataclass(frozen=True, slots=True)
class Problem:
    """Something that a cook reports of a batch; it stands until it is taken back."""

    said: Said
    tasks: tuple[str, ...]
    reason: str


@dataclass(frozen=True, slots=True)
class Weighing:
    """A load on the scale, of a batch's tasks."""

    said: Said
    tasks: tuple[str, ...]
    weight: Weight


@dataclass(frozen=True, slots=True)
class Floor:
    """Everything said that still counts."""

    tasks: Mapping[str, TaskState] = field(default_factory=dict)
    problems: tuple[Problem, ...] = ()
    weighings: tuple[Weighing, ...] = ()

    def of(self, task: str) -> TaskState:
        """What is known of one task."""
        return self.tasks.get(task, _UNTOUCHED)


_UNTOUCHED = TaskState()


def floor_of(ticks: Iterable[Tick]) -> Floor:
    """Fold ticks into where the floor stands.

    The first of several that say the same counts: two phones that tick one batch done tell when it
    was done first, and both must be taken back for it to be undone. Every weight counts, whoever
    sent it. What is done was begun no later.
    """
    by_key = {tick.key: tick for tick in ticks}
    gone = {tick.takes_back for tick in by_key.values() if tick.act is Act.TAKEN_BACK}
    counting = sorted(
        (tick for tick in by_key.values() if tick.key not in gone),
        key=lambda tick: (tick.at, tick.key),
    )
    tasks: dict[str, TaskState] = {}
    problems: list[Problem] = []
    weighings: list[Weighing] = []
    for tick in counting:
        said = Said(tick.at, tick.cook, tick.key)
        if tick.act is Act.PROBLEM:
            problems.append(Problem(said, tick.tasks, tick.reason))
        elif tick.act is Act.WEIGHED and tick.weight is not None:
            weighings.append(Weighing(said, tick.tasks, tick.weight))
        elif tick.act in (Act.BEGUN, Act.DONE, Act.HEARD):
            for task in tick.tasks:
                tasks[task] = _told(tasks.get(task, _UNTOUCHED), tick.act, said)
    return Floor(tasks, tuple(problems), tuple(weighings))


def _told(before: TaskState, act: Act, said: Said) -> TaskState:
    """``before`` with what is said later than all that is in it: only what is new counts."""
    if act is Act.BEGUN and before.begun is None and before.done is None:
        return replace(before, begun=said)
    if act is Act.DONE and before.done is None:
        return replace(before, done=said)
    if act is Act.HEARD and before.heard is None:
        return replace(before, heard=said)
    return before
