"""Knife cuts: their size in words, and the cut side to be drawn at its true size."""

from dataclasses import dataclass
from fractions import Fraction

from planner.sheet.batch_types import SheetCut
from web.presenters.cut_words import cut_name, cut_note
from web.presenters.quantities import number
from web.presenters.typography import BY

MM_PER_INCH = 25.4
"""Millimetres in an inch, exact. Source: NIST Handbook 44, Appendix C."""

_FRACTION_LIMIT = 16
"""Rulers and cut tables go down to sixteenths of an inch."""


_WORDS_MM = 12.0
"""Room for 'actual' over 'size' in small print, millimetres; starting guess."""

_SOURCING = "common practice, no source"
"""Where the figure is from belongs to the kitchen file, not to a line read with a knife in hand."""


@dataclass(frozen=True, slots=True)
class Face:
    """One side of a cut in millimetres, to be drawn at its true size."""

    width: str
    height: str


@dataclass(frozen=True, slots=True)
class CutView:
    """A cut as the sheet shows it; ``own_name`` is the kitchen's word for it.

    ``face`` is the end that the knife leaves, ``side`` the length of a stick; both None where the
    cut has no set size.
    """

    name: str
    own_name: str
    size: str
    note: str
    face: Face | None
    side: Face | None

    @property
    def holds_words(self) -> bool:
        """Whether the drawn face has room for two short words, so that these cost no line."""
        return self.face is not None and min(float(self.face.width), float(self.face.height)) >= (
            _WORDS_MM
        )


def cut_view(cut: SheetCut) -> CutView:
    """Everything about a cut that a sheet shows."""
    face = side = None
    if len(cut.inches) >= 2:
        face = _face(cut.inches[1], cut.inches[0])
    elif cut.inches:
        face = _face(cut.inches[0], cut.inches[0])
    if len(cut.inches) == 3 and cut.inches[2] > 2 * max(cut.inches[:2]):
        side = _face(cut.inches[2], cut.inches[0])
    return CutView(cut_name(cut.name), cut.name, cut_size(cut.inches), _note(cut.note), face, side)


def cut_size(sides: tuple[float, ...]) -> str:
    """Nominal sides in inches and millimetres: ``1/4 in (6 mm)``; equal sides are named once."""
    if not sides:
        return ""
    shown = sides[:1] if len(set(sides)) == 1 else sides
    inches = BY.join(inch_fraction(side) for side in shown)
    millimetres = BY.join(_millimetres(side) for side in shown)
    return f"{inches} in ({millimetres} mm)"


def inch_fraction(inches: float) -> str:
    """Inches as a cook says them: ``1/4``, ``2 1/2``; decimals where no sixteenth fits."""
    exact = Fraction(inches).limit_denominator(_FRACTION_LIMIT)
    if abs(float(exact) - inches) > 1e-6 or exact.denominator not in (1, 2, 4, 8, 16):
        return number(inches, 2)
    whole, rest = divmod(exact.numerator, exact.denominator)
    fraction = f"{rest}/{exact.denominator}" if rest else ""
    return " ".join(part for part in (str(whole) if whole else "", fraction) if part) or "0"


def _note(note: str) -> str:
    return cut_note("; ".join(part for part in note.split("; ") if part != _SOURCING))


def _millimetres(inches: float) -> str:
    size = inches * MM_PER_INCH
    return number(size, 1 if size < 3 else 0)


def _face(width: float, height: float) -> Face:
    return Face(f"{width * MM_PER_INCH:.2f}", f"{height * MM_PER_INCH:.2f}")
