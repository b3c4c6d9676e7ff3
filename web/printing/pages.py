"""Pages from which things are printed: what there is, labels, the pull list by itself."""

from collections.abc import Sequence
from dataclasses import dataclass
from urllib.parse import urlencode

from markupsafe import Markup

from planner.sheet.types import KitchenSheet
from web.engine import render
from web.language import _
from web.links import STYLESHEETS, Choice, Links
from web.pages import page_frame
from web.presenters.clock import long_date
from web.presenters.labels import LabelKind, PrintedLabel, copies_words
from web.presenters.preferences import Preferences
from web.presenters.pulls import cold_words, left_out_views, pull_groups, straight_views
from web.printing.labels import label_pages
from web.printing.paper import PAPERS
from web.printing.stock import STOCKS, LabelRoll, Stock, stock_name
from web.printing.svg import page_svg

STYLESHEET = "/static/labels.css"
MOST_LABELS = 500
"""Of one page or file; no shift needs more."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """Which labels are asked for."""

    stock: Stock
    first: int = 1
    """Position of the first label on the first sheet."""
    cook: str = ""
    """Id of the one cook whose labels they are; empty: all."""
    only: str = ""
    """Key of the one kind that is printed; empty: all."""
    copies: tuple[tuple[str, int], ...] = ()
    """(key of a kind, labels of it), where not the usual number."""

    @property
    def query(self) -> str:
        """The same as the query of an address."""
        fields = [("stock", self.stock.id), ("first", str(self.first))]
        fields += [
            (name, value) for name, value in (("cook", self.cook), ("only", self.only)) if value
        ]
        fields += [(f"n.{key}", str(count)) for key, count in self.copies]
        return urlencode(fields)


@dataclass(frozen=True, slots=True)
class _Printable:
    """A line of the page of what can be printed."""

    name: str
    told: str
    page: str
    files: tuple[Choice, ...]


@dataclass(frozen=True, slots=True)
class _Drawn:
    """A sheet of labels, or a label of the roll, as a drawing; ``paper`` names its page rule."""

    svg: Markup
    paper: str


def render_print(sheet: KitchenSheet, links: Links, *, live: bool) -> str:
    """What can be printed of a plan, as pages and as PDF files.

    Parameters
    ----------
    live
        Whether the cooks' sheets have a code to their live pages.
    """
    base = links.printing or ""
    lines = [
        _Printable(
            _("Sheets of all cooks"),
            _("One after the other, each numbered by itself."),
            "",
            _on_paper(f"{base}/sheets.pdf"),
        ),
        *(
            _Printable(
                cook.name,
                "",
                links.cook(cook.cook),
                _on_paper(f"{base}/sheets.pdf", {"cook": cook.cook}),
            )
            for cook in sheet.cooks
        ),
        _Printable(
            _("Pull list"),
            _("What the whole kitchen fetches."),
            f"{base}/pull-list",
            _on_paper(f"{base}/pull-list.pdf"),
        ),
        _Printable(
            _("Labels"),
            _("Choose whose and how many: on sheets of labels or on a 62 mm roll."),
            f"{base}/labels",
            (),
        ),
        _Printable(
            _("Wall chart"),
            "",
            links.wall,
            (Choice(_("PDF, %(paper)s", paper="A3"), f"{base}/wall.pdf"),),
        ),
    ]
    return render(
        "print.html",
        lines=lines,
        live=live,
        date=long_date(sheet.date),
        **page_frame(sheet, links, False, "print"),
    )


def render_pull_list(sheet: KitchenSheet, links: Links, preferences: Preferences) -> str:
    """The kitchen's pull list by itself."""
    groups = pull_groups(sheet.pulls, preferences)
    return render(
        "pull_list.html",
        groups=groups,
        cold=cold_words(groups),
        straight=straight_views(sheet.straight, preferences),
        left_out=left_out_views(sheet.left_out, preferences),
        date=long_date(sheet.date),
        files=_on_paper(f"{links.printing}/pull-list.pdf"),
        **page_frame(sheet, links, False, "print"),
    )


def render_labels(
    sheet: KitchenSheet,
    links: Links,
    *,
    kinds: Sequence[LabelKind],
    labels: Sequence[PrintedLabel],
    wanted: Wanted,
    wrong: str = "",
) -> str:
    """Choose labels, see them, print them.

    Parameters
    ----------
    kinds
        Those to choose from.
    labels
        Those that are printed.
    wrong
        Why they cannot be printed as asked for; then none is shown.
    """
    stock = wanted.stock
    pages = () if wrong else label_pages(labels, stock, wanted.first)
    counts = dict(wanted.copies)
    drawn = [
        _Drawn(
            page_svg(page, _("Labels %(number)s of %(of)s", number=number, of=len(pages))),
            f"roll-{page.height:g}" if isinstance(stock, LabelRoll) else stock.paper.lower(),
        )
        for number, page in enumerate(pages, start=1)
    ]
    base = f"{links.printing}/labels"
    return render(
        "labels.html",
        kinds=[
            (kind, counts.get(kind.key, kind.usual if wanted.only in ("", kind.key) else 0))
            for kind in kinds
        ],
        only={kind.key: f"{base}?{_only(wanted, kind.key)}" for kind in kinds},
        stocks=[(one.id, stock_name(one)) for one in STOCKS.values()],
        wanted=wanted,
        is_roll=isinstance(stock, LabelRoll),
        most=0 if isinstance(stock, LabelRoll) else stock.count,
        cooks=[(cook.cook, cook.name) for cook in sheet.cooks],
        count=copies_words(len(labels)),
        drawn=drawn,
        wrong=wrong,
        pdf=f"{base}.pdf?{wanted.query}",
        address=base,
        date=long_date(sheet.date),
        **page_frame(sheet, links, False, "print") | {"stylesheets": (*STYLESHEETS, STYLESHEET)},
    )


def _only(wanted: Wanted, key: str) -> str:
    return Wanted(wanted.stock, wanted.first, wanted.cook, key).query


def _on_paper(address: str, query: dict[str, str] | None = None) -> tuple[Choice, ...]:
    return tuple(
        Choice(
            _("PDF, %(paper)s", paper=paper.name),
            f"{address}?{urlencode({**(query or {}), 'paper': paper.id})}",
        )
        for paper in PAPERS.values()
    )
