"""The limit of a replan, shared by all that it does."""

import time
from collections.abc import Callable
from dataclasses import dataclass, replace

from planner.schedule.search import SearchOptions

RUNGS = (0.1, 0.15, 0.15, 0.1)
"""Of the limit, for rungs 3 to 6 of the ladder."""
CALM = 0.3
"""Of the limit, to give batches back afterwards."""
SECOND = 0.2
"""Of the limit, for a plan in which food that nobody can go on with is made again."""
FIRST = sum(RUNGS) + CALM


@dataclass(frozen=True, slots=True)
class Budget:
    """What may still be used of a limit.

    By the clock that is what is left of it since ``began`` (seconds of ``clock``), less what is set
    aside ``for_the_end``; in deterministic time the shares alone see to it, as they add up to 1.
    """

    options: SearchOptions
    began: float | None = None
    for_the_end: float = 0.0
    share: float = 1.0
    clock: Callable[[], float] = time.monotonic

    def after_building(self) -> "Budget":
        """The same when the rest of the day is known.

        What was done until now is undone in the end in about as long: as much is set aside.
        """
        if self.began is None:
            return self
        return replace(self, for_the_end=self.clock() - self.began)

    def part(self, share: float) -> SearchOptions:
        """Options for a search that may take ``share`` of the limit, as far as it is there."""
        options = self.options
        amount = options.limit * share * self.share
        if options.deterministic_limit is None and self.began is not None:
            left = options.limit - (self.clock() - self.began) - self.for_the_end
            amount = max(0.0, min(amount, left))
        return options.with_limit(amount)

    def second(self) -> "Budget":
        """What is for the second plan, its rungs and calm as those of the first."""
        return replace(self, share=SECOND / FIRST)
