"""What happens during a morning. Times are minutes after midnight of the planned day."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class CookGone:
    """A cook leaves at ``at`` and does not come back that day."""

    cook: str
    at: int


@dataclass(frozen=True, slots=True)
class CookLate:
    """A cook is not in before ``until``."""

    cook: str
    until: int


@dataclass(frozen=True, slots=True)
class Overran:
    """A batch under way is expected to be done at ``until`` only: its hands-on part if that is
    under way, else what it does by itself.
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
