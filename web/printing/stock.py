"""What labels are printed on: sheets of them in a grid, and the 62 mm roll. Millimetres.

The grids are those that sheets of plain labels are cut in everywhere, told by their measures. From
memory; a printed sheet held against an empty one shows whether it is the one at hand.
"""

from dataclasses import dataclass

from web.language import _


@dataclass(frozen=True, slots=True)
class LabelSheet:
    """A sheet of labels, ``columns`` by ``rows``, filled row by row."""

    id: str
    """In addresses and options: ``a4-3x8``."""
    paper: str
    """Name of the paper."""
    page_width: float
    page_height: float
    columns: int
    rows: int
    width: float
    """Of one label."""
    height: float
    """Of one label."""
    left: float
    """From the paper's left edge to the first label."""
    top: float
    """From the paper's upper edge to the first label."""
    gap: float
    """Between two columns; rows touch."""
    inset_x: float
    """From a label's side to its words: a printer leaves about 4 mm of the paper's edge blank."""
    inset_y: float

    @property
    def count(self) -> int:
        """Labels on a sheet."""
        return self.columns * self.rows

    def corner(self, position: int) -> tuple[float, float]:
        """Upper left corner of the label at ``position`` from 0, row by row."""
        row, column = divmod(position, self.columns)
        return self.left + column * (self.width + self.gap), self.top + row * self.height


@dataclass(frozen=True, slots=True)
class LabelRoll:
    """A roll of endless paper: each label is as long as its words need."""

    id: str
    width: float
    """Of the paper."""
    inset: float
    """From its edges to the words."""
    least: float
    """Length of the shortest label."""
    step: float
    """Lengths go up by this."""
    most: float
    """Length of the longest label."""


Stock = LabelSheet | LabelRoll

A4_3X8 = LabelSheet("a4-3x8", "A4", 210, 297, 3, 8, 70, 37, 0, 0.5, 0, 5, 4.5)
A4_2X7 = LabelSheet("a4-2x7", "A4", 210, 297, 2, 7, 99.1, 38.1, 4.65, 15.15, 2.5, 3, 2.5)
A4_2X4 = LabelSheet("a4-2x4", "A4", 210, 297, 2, 4, 99.1, 67.7, 4.65, 13.1, 2.5, 4, 4)
LETTER_3X10 = LabelSheet(
    "letter-3x10", "Letter", 215.9, 279.4, 3, 10, 66.7, 25.4, 4.75, 12.7, 3.15, 2, 1.6
)
LETTER_2X5 = LabelSheet(
    "letter-2x5", "Letter", 215.9, 279.4, 2, 5, 101.6, 50.8, 3.95, 12.7, 4.8, 4, 3.5
)
ROLL_62 = LabelRoll("roll-62", 62, 3, 30, 5, 200)

STOCKS: dict[str, Stock] = {
    one.id: one for one in (A4_3X8, A4_2X7, A4_2X4, LETTER_3X10, LETTER_2X5, ROLL_62)
}
"""By id, in the order they are offered."""


def stock_name(stock: Stock) -> str:
    """What it is called: paper, grid and size of a label."""
    width = f"{stock.width:g}"
    if isinstance(stock, LabelRoll):
        return _("Roll, %(width)s mm wide, each label as long as it needs", width=width)
    height = f"{stock.height:g}"
    return _(
        "%(paper)s, %(columns)s by %(rows)s labels of %(width)s by %(height)s mm",
        paper=stock.paper,
        columns=stock.columns,
        rows=stock.rows,
        width=width,
        height=height,
    )
