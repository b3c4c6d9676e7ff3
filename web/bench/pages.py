"""The bench's pages as text."""

from collections.abc import Sequence
from dataclasses import dataclass

from web.bench.form_view import BenchView
from web.bench.record_view import RecordView
from web.bench.yields_view import YieldsView
from web.chef.pages import CHEF_STYLESHEETS
from web.engine import render
from web.links import Choice
from web.presenters.yields import percent

_EVEN = 0.5
_LEVELS = (_EVEN, 0.75, 0.9, 0.95)
"""Chances of enough that are offered."""
_STYLESHEETS = (*CHEF_STYLESHEETS, "/static/bench.css")


@dataclass(frozen=True, slots=True)
class FoodChoices:
    """A food with the operations on it that have a yield: value and words of each."""

    food: str
    choices: tuple[tuple[str, str], ...]


def render_bench_start(
    kitchen: str,
    foods: Sequence[FoodChoices],
    *,
    nav: Sequence[Choice],
    address: str,
    kept: Sequence[Choice] = (),
) -> str:
    """Choose what is tested, or read one of the tests ``kept``, the newest first."""
    return render(
        "bench/start.html", foods=foods, address=address, kept=kept, **_frame(kitchen, nav)
    )


def render_bench_form(
    kitchen: str,
    view: BenchView,
    *,
    nav: Sequence[Choice],
    address: str,
    of: str,
    sent: str,
    date: str,
    currency: str,
) -> str:
    """The form: weights in the order of the work. ``sent`` names it, so that it is kept once."""
    return render(
        "bench/form.html",
        view=view,
        address=address,
        of=of,
        sent=sent,
        date=date,
        currency=currency,
        **_frame(kitchen, nav),
    )


def render_bench_record(
    kitchen: str, view: RecordView, *, nav: Sequence[Choice], again: str
) -> str:
    """A kept test; ``again`` leads to a form for another of the same."""
    return render("bench/record.html", view=view, again=again, **_frame(kitchen, nav))


def render_yields(
    kitchen: str,
    view: YieldsView,
    *,
    nav: Sequence[Choice],
    address: str,
    bench: str,
    level: float,
    by_rule: bool,
    told: str = "",
) -> str:
    """The kitchen's yields in use. ``level`` is the chance that what is pulled gives enough."""
    return render(
        "bench/yields.html",
        view=view,
        address=address,
        bench=bench,
        level="" if level == _EVEN else percent(level, 0),
        levels=[
            (f"{one * 100:g}", percent(one, 0), one == level) for one in sorted({*_LEVELS, level})
        ],
        by_rule=by_rule,
        told=told,
        **_frame(kitchen, nav),
    )


def _frame(kitchen: str, nav: Sequence[Choice]) -> dict[str, object]:
    return {"kitchen": kitchen, "nav": nav, "style": "", "stylesheets": _STYLESHEETS}
