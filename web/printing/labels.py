"""Labels on their paper: sheets with a choosable first position, or one page for each of a roll."""

from collections.abc import Sequence

from web.presenters.labels import PrintedLabel
from web.printing.label import LabelRoomError, label_in, label_on_roll
from web.printing.shapes import Page, Shape, moved
from web.printing.stock import LabelRoll, LabelSheet, Stock


def label_pages(labels: Sequence[PrintedLabel], stock: Stock, first: int = 1) -> tuple[Page, ...]:
    """Pages with every label once, in order; none without labels.

    Parameters
    ----------
    first
        Position of the first label on the first sheet, from 1, row by row: those before it are
        used up. Without meaning on a roll.

    Raises
    ------
    web.printing.label.LabelRoomError
        A label's words do not fit.
    ValueError
        ``first`` is not on the sheet.
    """
    if isinstance(stock, LabelRoll):
        return tuple(_piece(label, stock) for label in labels)
    if not 1 <= first <= stock.count:
        raise ValueError(f"first is {first}: the sheet has positions 1 to {stock.count}")
    pages: list[list[Shape]] = []
    for number, label in enumerate(labels, start=first - 1):
        sheet, position = divmod(number, stock.count)
        if sheet == len(pages):
            pages.append([])
        pages[sheet] += _cell(label, stock, position)
    return tuple(Page(stock.page_width, stock.page_height, tuple(shapes)) for shapes in pages)


def fitting_stock(
    labels: Sequence[PrintedLabel], stocks: Sequence[LabelSheet]
) -> LabelSheet | None:
    """The first of the sheets on which every label has room; None: none of them."""
    for stock in stocks:
        try:
            label_pages(labels, stock)
        except LabelRoomError:
            continue
        return stock
    return None


def _cell(label: PrintedLabel, stock: LabelSheet, position: int) -> list[Shape]:
    x, y = stock.corner(position)
    shapes = label_in(label, stock.width - 2 * stock.inset_x, stock.height - 2 * stock.inset_y)
    return [moved(shape, x + stock.inset_x, y + stock.inset_y) for shape in shapes]


def _piece(label: PrintedLabel, roll: LabelRoll) -> Page:
    length, shapes = label_on_roll(label, roll)
    return Page(roll.width, length, tuple(moved(shape, roll.inset, roll.inset) for shape in shapes))
