"""What a printed page consists of: places and sizes in millimetres, from its upper left corner.

The same shapes become a PDF (`web.printing.pdf`) or a drawing on a page (`web.printing.svg`).
"""

from dataclasses import dataclass, replace
from typing import Literal

Fill = Literal["none", "paper", "ink", "grey", "hatch", "dots", "stripes", "mesh"]
"""How a box is filled: by patterns, not by colours, so that any printer will do."""


@dataclass(frozen=True, slots=True)
class Text:
    """A line of text on its base line."""

    x: float
    """Left edge; with ``angle`` where the line begins."""
    y: float
    """Base line."""
    text: str
    """What stands there."""
    size: float
    """Font size, points."""
    bold: bool = False
    """Whether in the bold face."""
    on_ink: bool = False
    """White, on a box of ink."""
    halo: bool = False
    """Whether a white edge parts it from what it crosses."""
    angle: float = 0.0
    """Degrees turned to the left."""
    most: float | None = None
    """Width that it may take, mm: what is wider is set narrower. None: as wide as it is."""


@dataclass(frozen=True, slots=True)
class Rule:
    """A straight line."""

    x: float
    y: float
    to_x: float
    to_y: float
    width: float = 0.2
    """Millimetres."""
    grey: bool = False
    """Whether it only guides the eye."""
    dashed: bool = False
    """Whether it is broken."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle with an edge."""

    x: float
    y: float
    width: float
    height: float
    fill: Fill = "none"
    edge: float = 0.3
    """Width of the edge, mm; 0: none."""


@dataclass(frozen=True, slots=True)
class Code:
    """A two-dimensional code, its quiet zone included, dark on white."""

    x: float
    y: float
    size: float
    """Side, mm."""
    rows: tuple[bytes, ...]
    """Modules from the top, 1 is dark."""


Shape = Text | Rule | Box | Code


@dataclass(frozen=True, slots=True)
class Page:
    """One page of paper, or one label of a roll."""

    width: float
    height: float
    shapes: tuple[Shape, ...]


def moved(shape: Shape, x: float, y: float) -> Shape:
    """``shape`` so much further right and down."""
    if isinstance(shape, Rule):
        return replace(
            shape, x=shape.x + x, y=shape.y + y, to_x=shape.to_x + x, to_y=shape.to_y + y
        )
    return replace(shape, x=shape.x + x, y=shape.y + y)
