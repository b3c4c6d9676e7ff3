"""Ticked batches as the learning sees them, and what is learned of them. Minutes."""

import math
from dataclasses import dataclass
from enum import StrEnum
from statistics import NormalDist


class Kind(StrEnum):
    """What a figure is."""

    SET_UP = "set-up"
    """Minutes, once per batch."""
    RATE = "rate"
    """Minutes per the operation's unit, at pace 1."""
    SLOWNESS = "slowness"
    """A cook's minutes / those of pace 1."""


@dataclass(frozen=True, slots=True, order=True)
class Key:
    """Which figure of the kitchen file.

    A rate is that of ``operation`` on ``food``; where ``step`` is 0 or more it stands at that step
    of the route of the component ``food``. A set-up has no food. A slowness is that of ``cook`` at
    ``skill``.
    """

    kind: Kind
    operation: str = ""
    food: str = ""
    step: int = -1
    cook: str = ""
    skill: str = ""


@dataclass(frozen=True, slots=True)
class Book:
    """A figure as the kitchen file has it, before anybody ticked."""

    key: Key
    value: float

    def __post_init__(self) -> None:
        if not (self.value > 0 and math.isfinite(self.value)):
            raise ValueError(
                f"{self.key.kind} of {self.key.operation or self.key.cook} is {self.value:g}: "
                "a figure to learn from is above zero"
            )


@dataclass(frozen=True, slots=True)
class Observation:
    """One ticked batch: ``minutes`` from its begin to its end, a planned break within taken off.

    Attributes
    ----------
    skill
        Of its operation; batches of one skill are learned from together, since paces are by skill.
    cook, rate, set_up
        Whose and which figures its minutes depend on. ``set_up`` is None where the batch went on
        without one; ``rate`` where its minutes do not grow with a quantity.
    units
        How many of the rate's unit.
    fixed
        Minutes at pace 1 that are neither: once per lot.
    source
        What to call it in a question: day, cook, batch.
    """

    skill: str
    cook: Key
    rate: Key | None
    set_up: Key | None
    units: float
    minutes: float
    fixed: float = 0.0
    source: str = ""


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A batch that was not learned from, and why."""

    source: str
    why: str


@dataclass(frozen=True, slots=True)
class Learned:
    """What is known of one figure: log-normal about ``value``.

    Attributes
    ----------
    value
        Median: minutes, minutes per unit, or slowness.
    book
        What the kitchen file says.
    doubt
        Standard deviation of its logarithm.
    batches
        How many batches spoke of it, each by the chance that its ticks can be believed.
    """

    key: Key
    value: float
    book: float
    doubt: float
    batches: float

    def interval(self, level: float = 0.9) -> tuple[float, float]:
        """The middle ``level`` of what the figure may be."""
        if not 0 < level < 1:
            raise ValueError(f"a level lies between 0 and 1, not {level}")
        reach = NormalDist().inv_cdf(0.5 + level / 2) * self.doubt
        return self.value * math.exp(-reach), self.value * math.exp(reach)


@dataclass(frozen=True, slots=True)
class Doubtful:
    """A batch whose ticks are taken to be forgotten or shared: ``usual`` minutes against ticked."""

    observation: Observation
    usual: float
    chance: float
    """Of its ticks being right."""


@dataclass(frozen=True, slots=True)
class SkillRates:
    """All that is learned of one skill.

    Attributes
    ----------
    spread
        Standard deviation of the logarithm of a batch's minutes about what the figures say.
    cooks_spread
        The same of cooks' slowness about what the file says of each.
    forgotten
        Share of batches whose ticks are not to be believed.
    """

    skill: str
    figures: tuple[Learned, ...]
    spread: float
    cooks_spread: float
    forgotten: float
    batches: int
    doubtful: tuple[Doubtful, ...] = ()


@dataclass(frozen=True, slots=True)
class ServiceChance:
    """How a service fares over many mornings of one plan."""

    service: str
    """Id of the service."""
    name: str
    """Name of the service."""
    due: int
    """When all of it has to be ready, minutes after midnight."""
    chance: float
    """Share of mornings on which it is, 0 to 1."""
    late_at_worst: float
    """Minutes after it is due by which it is ready on nine mornings out of ten; 0: by then."""
    learned: float
    """Share of its hands-on minutes whose rate was learned from ticks, 0 to 1."""
    last: str
    """Name of the food that is the last to be ready most often."""
    short: bool = False
    """Part of it is not made by the plan; the chance is that of the rest."""
    since: int | None = None
    """The minute from which a day under way was counted; None: from its beginning."""
