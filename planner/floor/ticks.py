"""What a cook says at the shelf: begun, done, something is wrong, so much was weighed.

Times are minutes after midnight of the planned day on the kitchen's wall, with a fraction: rates
are learned from them.
"""

from dataclasses import dataclass
from enum import StrEnum


class Act(StrEnum):
    """What a tick says."""

    BEGUN = "begun"
    DONE = "done"
    PROBLEM = "problem"
    WEIGHED = "weighed"
    HEARD = "heard"
    """The alarm of what runs by itself was answered."""
    TAKEN_BACK = "taken back"


class Weighed(StrEnum):
    """What was on the scale."""

    GROSS = "gross"
    """Food as it went in."""
    USABLE = "usable"
    """Food as it came out."""
    TRIM = "trim"
    """What was taken off, to keep or to throw away."""


@dataclass(frozen=True, slots=True)
class Weight:
    """One load on the scale.

    ``grams`` is what the scale showed, ``tare_grams`` the empty container's share of it. ``item``
    is the food, or the by-product the trim is kept as; empty for waste.
    """

    kind: Weighed
    grams: float
    tare_grams: float = 0.0
    item: str = ""

    @property
    def net_grams(self) -> float:
        """Grams of food."""
        return self.grams - self.tare_grams


@dataclass(frozen=True, slots=True)
class Tick:
    """One thing that a cook said.

    Attributes
    ----------
    key
        Made by the device, never used twice: a tick that is sent again is known by it.
    at
        When it was said, minutes.
    cook
        Id of who said it.
    tasks
        Ids of the tasks it is about, as the problem names them.
    reason
        What is wrong, of a ``PROBLEM``.
    weight
        What was weighed, of ``WEIGHED``.
    takes_back
        Key of the tick that does not count any more, of ``TAKEN_BACK``.
    """

    key: str
    act: Act
    at: float
    cook: str
    tasks: tuple[str, ...] = ()
    reason: str = ""
    weight: Weight | None = None
    takes_back: str = ""
