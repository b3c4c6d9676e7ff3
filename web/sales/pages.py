"""The pages of the sales history as text."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planner.forecast.history import HistoryFault
from web.chef.pages import CHEF_STYLESHEETS
from web.engine import render
from web.links import Choice
from web.review.charts import Chart
from web.review.drawing import drawn
from web.sales.asked_view import AskedView
from web.sales.view import SalesView

_STYLES = (*CHEF_STYLESHEETS, "/static/labor.css", "/static/sales.css")


@dataclass(frozen=True, slots=True)
class EntryLine:
    """Something that changed the history, in words; ``number`` is of what can be put back, or 0."""

    when: str
    what: str
    number: int


@dataclass(frozen=True, slots=True)
class CountryForm:
    """Whose holidays count: codes and names of countries, what is chosen, and what is wrong.

    ``wrong`` is the value, the trouble and the remedy, all empty where nothing is.
    """

    countries: Sequence[tuple[str, str]]
    country: str
    region: str
    wrong: tuple[str, str, str] = ("", "", "")


def render_sales(
    view: SalesView,
    *,
    kitchen: str,
    nav: Sequence[Choice],
    address: str,
    entries: Sequence[EntryLine],
    country: CountryForm,
    example: Sequence[str],
    known: Sequence[str],
    told: Sequence[str] = (),
    wrong: Sequence[HistoryFault] = (),
    more_wrong: int = 0,
    invented: bool = False,
) -> str:
    """What was sold, what may be missing, and how forecasts would have done.

    Parameters
    ----------
    address
        Path of the page; what is sent from it lies there and below.
    example
        Lines of a file as this kitchen's would be.
    known
        Services that can be entered.
    told
        What came of something, in sentences.
    wrong, more_wrong
        Why a file is not kept: its first faults, and how many more.
    invented
        Whether the demo has made some of it up.
    """
    return render(
        "chef/sales.html",
        view=view,
        kitchen=kitchen,
        nav=nav,
        address=address,
        charts=f"{address}/charts",
        entries=entries,
        country=country,
        example=example,
        known=known,
        told=told,
        wrong=wrong,
        more_wrong=more_wrong,
        invented=invented,
        style="",
        stylesheets=_STYLES,
    )


def render_asked(
    view: AskedView,
    *,
    kitchen: str,
    nav: Sequence[Choice],
    address: str,
    text: str,
    source: str,
    given: Mapping[str, str],
) -> str:
    """What has to be answered before a file is kept; ``given`` is answered already, by field."""
    return render(
        "chef/sales_asked.html",
        view=view,
        kitchen=kitchen,
        nav=nav,
        address=address,
        text=text,
        source=source,
        given=given,
        style="",
        stylesheets=_STYLES,
    )


def chart_svg(chart: Chart) -> str:
    """A chart as the image that the page shows."""
    return drawn(chart.spec)
