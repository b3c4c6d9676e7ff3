"""The PDF files of a morning: sheets, pull list, wall chart, labels."""

from collections.abc import Callable, Sequence

from planner.sheet.types import KitchenSheet
from web.language import _
from web.pages import cook_of
from web.presenters.clock import long_date
from web.presenters.labels import PrintedLabel
from web.presenters.preferences import Preferences
from web.printing.cook import cook_pages
from web.printing.labels import label_pages
from web.printing.paper import A4, LETTER, Paper
from web.printing.pdf import as_pdf
from web.printing.pulls import pull_pages
from web.printing.stock import Stock
from web.printing.wall import wall_pages


def usual_paper(preferences: Preferences) -> Paper:
    """What the reader's printer most likely holds: Letter where units are US."""
    return LETTER if preferences.units == "us" else A4


def sheets_pdf(
    sheet: KitchenSheet,
    preferences: Preferences,
    paper: Paper,
    *,
    cook: str = "",
    live: Callable[[str], str] = lambda _cook: "",
) -> bytes:
    """Sheets of all cooks one after the other, each numbered by itself, or of one.

    Parameters
    ----------
    cook
        Id of the one cook; empty: all.
    live
        Address of a cook's live page by id, for the code on the sheet; empty: none.

    Raises
    ------
    LookupError
        The sheet has no cook with that id.
    """
    cooks = (cook_of(sheet, cook),) if cook else sheet.cooks
    pages = [
        page for one in cooks for page in cook_pages(sheet, one, preferences, paper, live(one.cook))
    ]
    return as_pdf(pages, title=_titled(cooks[0].name if cook else _("Prep sheets"), sheet))


def pull_list_pdf(sheet: KitchenSheet, preferences: Preferences, paper: Paper) -> bytes:
    """The kitchen's pull list."""
    return as_pdf(pull_pages(sheet, preferences, paper), title=_titled(_("Pull list"), sheet))


def wall_pdf(sheet: KitchenSheet, preferences: Preferences) -> bytes:
    """The wall chart, A3 sideways."""
    return as_pdf(wall_pages(sheet, preferences), title=_titled(_("Wall chart"), sheet))


def labels_pdf(
    sheet: KitchenSheet, labels: Sequence[PrintedLabel], stock: Stock, first: int = 1
) -> bytes:
    """Labels on their paper; see `web.printing.labels.label_pages` for the rest and the errors."""
    return as_pdf(label_pages(labels, stock, first), title=_titled(_("Labels"), sheet))


def _titled(what: str, sheet: KitchenSheet) -> str:
    return f"{what}, {long_date(sheet.date)}, {sheet.kitchen}"
