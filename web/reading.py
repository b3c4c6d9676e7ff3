"""How whoever looks at a page reads it: language, units and clock, offered on every page."""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from typing import Literal, get_args

from web.language import LANGUAGES, SOURCE, _, speaking
from web.presenters.preferences import Preferences

Units = Literal["metric", "us"]
Clock = Literal["24", "12"]

CHOICES: Mapping[str, tuple[str, ...]] = {
    "language": tuple(LANGUAGES),
    "units": get_args(Units),
    "clock": get_args(Clock),
}
"""What may be chosen, by the name that an address gives it: ``?units=us``."""


@dataclass(frozen=True, slots=True)
class Way:
    """One way to read the page: what it is called, where it leads, whether it is the one."""

    label: str
    href: str
    current: bool
    lang: str = ""
    """ISO 639-1 code, where it is a language: its name stands in that language."""


@dataclass(frozen=True, slots=True)
class Reading:
    """What one reader has chosen."""

    language: str = SOURCE
    """ISO 639-1 code."""
    units: Units = "metric"
    """Units of mass and length."""
    clock: Clock = "24"
    """Hours of the clock."""

    @property
    def preferences(self) -> Preferences:
        """The same for presenters, which know the language by themselves."""
        return Preferences(self.units, 12 if self.clock == "12" else 24)


_current: ContextVar[Reading | None] = ContextVar("reading", default=None)


@contextmanager
def read_as(reading: Reading) -> Iterator[None]:
    """Write for this reader, and offer the other ways to read, until the block ends."""
    token = _current.set(reading)
    try:
        with speaking(reading.language):
            yield
    finally:
        _current.reset(token)


def preferences() -> Preferences:
    """Units and clock of whoever reads what is written; metric and 24 h where nobody is known."""
    return (_current.get() or Reading()).preferences


def reading_choices() -> tuple[Way, ...]:
    """Ways to read the page that is written; none where nobody could answer a choice.

    The addresses are a query alone: they lead to the page they stand on.
    """
    reading = _current.get()
    if reading is None:
        return ()
    offered = (
        *(("language", code, name) for code, name in LANGUAGES.items()),
        ("units", "metric", _("Metric")),
        ("units", "us", _("US units")),
        ("clock", "24", _("24 h")),
        ("clock", "12", _("12 h")),
    )
    return tuple(
        Way(
            label,
            f"?{name}={value}",
            getattr(reading, name) == value,
            value if name == "language" else "",
        )
        for name, value, label in offered
    )
