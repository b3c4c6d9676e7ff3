"""What people hold by hand: a lot at a cook, or at a time. Times are minutes after midnight."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Pin:
    """One lot held by hand.

    Attributes
    ----------
    lot
        Its id in the plan.
    cook
        Id of the cook who is to do its work; None: whoever the plan says.
    begin
        When its work begins, set-up apart, or None.
    exactly
        Whether at that minute; else not before it.
    follows
        Id of the lot of the same batch that it is to come after, where that can be.
    """

    lot: str
    cook: str | None = None
    begin: int | None = None
    exactly: bool = False
    follows: str = ""


class PinError(ValueError):
    """A batch cannot be held so.

    ``field`` (batch, cook or begin) and ``value`` say what was given, ``message`` what is wrong
    with it, ``remedy`` what to do instead; ``lot`` is the id of the lot.
    """

    def __init__(self, lot: str, field: str, value: str, message: str, remedy: str) -> None:
        super().__init__(f"{field}: {value!r} {message}. {remedy}.")
        self.lot = lot
        self.field = field
        self.value = value
        self.message = message
        self.remedy = remedy


def pins_of_batch(
    lots: Sequence[str], cook: str | None, begin: int | None, *, exactly: bool
) -> tuple[Pin, ...]:
    """Hold a batch: the first of its ``lots`` begins as said, each other one after the one before.

    All are with the cook, none begins before the time; the first alone is held to the minute.
    """
    found: list[Pin] = []
    for number, lot in enumerate(dict.fromkeys(lots)):
        first = number == 0
        found.append(Pin(lot, cook, begin, exactly and first, "" if first else found[-1].lot))
    return tuple(found)


def changed_pins(
    before: Iterable[Pin], held: Iterable[Pin], freed: Collection[str]
) -> tuple[Pin, ...]:
    """``before`` with some lots held anew, and those ``freed`` (by id) not any more."""
    pins: Mapping[str, Pin] = {pin.lot: pin for pin in before if pin.lot not in freed}
    return tuple({**pins, **{pin.lot: pin for pin in held}}.values())
