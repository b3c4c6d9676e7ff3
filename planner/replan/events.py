"""What happens during a morning. Times are minutes after midnight of the planned day."""

from dataclasses import dataclass


class UnknownEventError(ValueError):
    """An event names something that the kitchen or the plan does not have.

    ``field`` and ``value`` say what was given, ``remedy`` what can be given instead.
    """

    def __init__(self, field: str, value: str, message: str, remedy: str) -> None:
        super().__init__(f"{field}: {value!r} {message}. {remedy}")
        self.field = field
        self.value = value
        self.remedy = remedy


@dataclass(frozen=True, slots=True)
class CookGone:
    """A cook leaves at ``at`` and does not come back that day."""

    cook: str
    at: int


@dataclass(frozen=True, slots=True)
class CookLate:
    """A cook has not been in today and is not in before ``until``."""

    cook: str
    until: int


@dataclass(frozen=True, slots=True)
class Overran:
    """A batch that has begun is expected to be done at ``until`` only.

    Its hands-on part if that is under way or all there is to it, else what it does by itself.
    """

    lot: str
    until: int


@dataclass(frozen=True, slots=True)
class EquipmentDown:
    """``units`` of a kind of equipment cannot be used until ``until``; None: all day."""

    equipment: str
    units: int = 1
    until: int | None = None


@dataclass(frozen=True, slots=True)
class CoversChanged:
    """A service expects so many covers now."""

    service: str
    covers: int


@dataclass(frozen=True, slots=True)
class DeliveryLate:
    """The day's deliveries of an ingredient come at ``at``; None: not at all."""

    item: str
    at: int | None


@dataclass(frozen=True, slots=True)
class Spoiled:
    """What a batch gave, or is working on, must be discarded."""

    lot: str


Event = CookGone | CookLate | Overran | EquipmentDown | CoversChanged | DeliveryLate | Spoiled


@dataclass(frozen=True, slots=True)
class Progress:
    """What the floor says of one task: who did it from when to when.

    ``task`` is its index in the plan's problem. ``end`` None: still at it. A ``start`` that is
    still to come says that it has not begun. Tasks that nothing is said of went as planned.
    """

    task: int
    cook: str
    start: int
    end: int | None = None
