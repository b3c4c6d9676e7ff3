"""Where a day's work is batched otherwise than by the rule, stage by stage."""

from dataclasses import dataclass, replace
from enum import StrEnum

StageKey = tuple[str, ...]


class Batches(StrEnum):
    """How a stage's food is divided into lots.

    By the rule, needs due within an hour and a half share lots; later ones join them where both fit
    one lot; and a lot keeps to its vessel and to half an hour of hands.
    """

    APART = "apart"
    """Later needs have lots of their own: small and fresh twice."""
    TOGETHER = "together"
    """All needs share lots, however many those are: large and early once."""
    HALVED = "halved"
    """Twice as many lots: two cooks may have one each."""
    WHOLE = "whole"
    """Lots as large as the vessel takes, however long they keep hands busy."""


@dataclass(frozen=True, slots=True)
class Batching:
    """What differs from the rule; a stage may be divided in several ways at once."""

    ways: frozenset[tuple[StageKey, Batches]] = frozenset()

    def has(self, stage: StageKey, way: Batches) -> bool:
        """Whether a stage is divided in a way."""
        return (stage, way) in self.ways

    def toggled(self, stage: StageKey, way: Batches) -> "Batching":
        """The same with one stage divided in a way, or not any more."""
        return replace(self, ways=self.ways ^ {(stage, way)})


BY_THE_RULE = Batching()


@dataclass(frozen=True, slots=True)
class StageLots:
    """The lots of one stage, and what could be otherwise.

    ``spread`` is minutes between the first and the last time anything of it is due, ``joined``
    whether some lot is for needs of more than one wave, ``hands`` book minutes of its largest lot,
    ``room`` whether the vessel would take more than the largest lot.
    """

    key: StageKey
    lots: tuple[int, ...]
    spread: int
    joined: bool
    hands: float
    room: bool
