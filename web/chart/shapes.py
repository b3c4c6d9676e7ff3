"""What the chart is drawn from: places and sizes in the units of the SVG's view box."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Words:
    """A line of text; ``x`` is its left edge, ``y`` its base line."""

    x: float
    y: float
    text: str
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Bar:
    """One stretch of a lane. ``style`` names its pattern, ``tip`` says everything in words."""

    x: float
    y: float
    width: float
    height: float
    style: str
    late: bool
    tip: str
    inside: tuple[Words, ...]
    upright: Words | None
    """What a narrow bar says, written upwards around its middle."""


@dataclass(frozen=True, slots=True)
class Row:
    """A lane: its title, its bars, and below them what did not fit inside."""

    y: float
    height: float
    title: tuple[Words, ...]
    cook: bool
    bars: tuple[Bar, ...]
    below: tuple[Words, ...]


@dataclass(frozen=True, slots=True)
class Tick:
    """An hour on the axis."""

    x: float
    text: str


@dataclass(frozen=True, slots=True)
class DueLine:
    """When a service must be on the line."""

    x: float
    words: Words


@dataclass(frozen=True, slots=True)
class Key:
    """One entry of the legend."""

    x: float
    style: str
    late: bool
    words: Words


@dataclass(frozen=True, slots=True)
class NowLine:
    """Where it is now; ``start`` and ``end`` of the axis let a script move it, minutes."""

    x: float
    right: float
    start: int
    end: int
    words: Words


@dataclass(frozen=True, slots=True)
class Chart:
    """The whole chart. ``top`` and ``bottom`` are the ends of the time lines."""

    title: str
    description: str
    width: float
    height: float
    left: float
    top: float
    bottom: float
    ticks: tuple[Tick, ...]
    dues: tuple[DueLine, ...]
    rows: tuple[Row, ...]
    key_y: float
    keys: tuple[Key, ...]
    now: NowLine | None = None
