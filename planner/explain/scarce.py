"""What the scarce things are worth: each change of the morning is solved anew, never guessed."""

import time
from collections.abc import Callable
from dataclasses import dataclass, replace

from planner.explain.candidates import candidates
from planner.explain.trials import Outcome, left_of, rank, tried
from planner.explain.words import Morning
from planner.schedule.search import SearchOptions
from planner.troubles.change import Change


@dataclass(frozen=True, slots=True)
class ShadowValue:
    """What one change brings beyond solving the unchanged morning anew.

    ``portions`` and ``kilos`` less short, ``late`` minutes less late, ``labor`` minutes less work
    (overtime included); negative where something earlier in the order was bought with it.
    """

    text: str
    portions: int
    kilos: int
    late: int
    labor: int
    outcome: Outcome

    @property
    def helps(self) -> bool:
        """Whether the morning is better with it."""
        return any((self.portions, self.kilos, self.late, self.labor))


@dataclass(frozen=True, slots=True)
class Scarce:
    """What binds on a morning, and what more of it would bring.

    Attributes
    ----------
    plan
        The morning as it is planned.
    unchanged
        The same, solved anew as long as each change was, the better of two; the values count from
        here.
    values
        What was tried, the most worth first.
    untried
        What binds as well, but there was no time left to try.
    """

    plan: Outcome
    unchanged: Outcome
    values: tuple[ShadowValue, ...]
    untried: tuple[str, ...]


def scarce_things(
    morning: Morning,
    options: SearchOptions,
    budget: float | None = None,
    clock: Callable[[], float] = time.monotonic,
) -> Scarce:
    """Try more of everything that binds, what binds longest first.

    Parameters
    ----------
    options
        Bounds each change's search.
    budget
        Seconds for all changes together; what no longer fits is named, not tried. None: no limit.
    clock
        Seconds, from any beginning.
    """
    began = clock()
    problem, timetable = morning.problem, morning.plan.solution.timetable
    now = Outcome(morning.plan.solution.score, left_of(problem, timetable))
    same = Change("", problem, timetable)
    # Searched twice, so that one lucky search does not pass for what a change brings.
    seeds = (options.seed, options.seed + 1)
    again = [tried(same, replace(options, seed=seed))[0] for seed in seeds]
    unchanged = min(again, key=lambda outcome: rank(outcome.score))
    values: list[ShadowValue] = []
    untried: list[str] = []
    for one in candidates(morning):
        spent = clock() - began
        if budget is not None and spent + options.seconds > budget:
            untried.append(one.text)
            continue
        outcome, _ = tried(Change(one.text, one.problem, timetable), options)
        values.append(_value(one.text, unchanged, outcome))
    values.sort(key=lambda value: rank(value.outcome.score))
    return Scarce(now, unchanged, tuple(values), tuple(untried))


def _value(text: str, unchanged: Outcome, outcome: Outcome) -> ShadowValue:
    """What is better; nothing where the search found nothing better with the change."""
    if rank(outcome.score) >= rank(unchanged.score):
        return ShadowValue(text, 0, 0, 0, 0, outcome)
    before, after = unchanged.left, outcome.left
    return ShadowValue(
        text,
        before.portions - after.portions,
        before.kilos - after.kilos,
        before.late - after.late,
        unchanged.labor - outcome.labor,
        outcome,
    )
