"""The sous chef's pages as text."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from planner.sheet.types import KitchenSheet
from web.chef.build_view import BuildView
from web.chef.changes_view import changes_view
from web.chef.compare_view import PlansTable, WhatIfView, figures
from web.chef.day_view import DayView
from web.engine import render
from web.language import ngettext
from web.links import STYLESHEETS, Choice, Links
from web.presenters.chances import chances_view
from web.presenters.clock import long_date
from web.presenters.preferences import Preferences

CHEF_STYLESHEETS = (*STYLESHEETS, "/static/chef.css")
_METRIC = Preferences()


@dataclass(frozen=True, slots=True)
class PlanLink:
    """A plan of the day: where it leads, when it was asked for, how it stands."""

    href: str
    label: str
    state: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class TakableDay:
    """A day whose services may be taken over, in words."""

    iso: str
    label: str


def render_day(
    view: DayView,
    *,
    nav: Sequence[Choice],
    address: str,
    sales_href: str,
    date: dt.date,
    version: int,
    plans: Sequence[PlanLink] = (),
    takable: Sequence[TakableDay] = (),
    told: Sequence[str] = (),
    stale: str = "",
) -> str:
    """The day's page: covers and mix, who is in, what is on hand.

    Parameters
    ----------
    address
        Path of the kitchen's days.
    sales_href
        Path of the kitchen's sales history.
    version
        Of the kitchen file that the form is about.
    told
        What came of saving, in sentences.
    stale
        Who has changed the kitchen file meanwhile, where that kept this from being saved.
    """
    return render(
        "chef/day.html",
        view=view,
        nav=nav,
        address=address,
        sales_href=sales_href,
        iso=date.isoformat(),
        version=version,
        plans=plans,
        takable=takable,
        told=told,
        stale=stale,
        style="",
        stylesheets=CHEF_STYLESHEETS,
    )


def render_build(
    view: BuildView, *, nav: Sequence[Choice], plan: str, day: str, kitchen: str, date: dt.date
) -> str:
    """A plan as it is made; ``plan`` and ``day`` are the paths of its sheet and of its day."""
    return render(
        "chef/build.html",
        view=view,
        nav=nav,
        plan=plan,
        day=day,
        kitchen=kitchen,
        date=long_date(date),
        style="",
        stylesheets=CHEF_STYLESHEETS,
    )


def render_progress(view: BuildView, *, plan: str, day: str) -> str:
    """What changes on the page of ``render_build`` while the search goes on."""
    return render("chef/progress.html", view=view, plan=plan, day=day)


def render_release(
    *,
    heading: str,
    what: str,
    sheet: KitchenSheet,
    before: KitchenSheet | None,
    links: Links,
    nav: Sequence[Choice],
    told: Sequence[str] = (),
    act: str = "",
    choices: Sequence[Choice] = (),
    preferences: Preferences = _METRIC,
) -> str:
    """What a release changes for whom, before it is made (``act`` is where) and after.

    Parameters
    ----------
    before
        The sheet of the release before; None: it is the day's first.
    told
        What to know first, in sentences.
    choices
        Where to go from here.
    """
    return render(
        "chef/release.html",
        heading=heading,
        what=what,
        date=long_date(sheet.date),
        kitchen=sheet.kitchen,
        view=None if before is None else changes_view(before, sheet, preferences),
        first=[
            ngettext(
                "%(cook)s: %(n)s batch",
                "%(cook)s: %(n)s batches",
                len(cook.batches),
                cook=cook.name,
            )
            for cook in sheet.cooks
        ],
        links=links,
        nav=nav,
        told=told,
        chances_view=chances_view(sheet.chances, preferences),
        act=act,
        choices=choices,
        style="",
        stylesheets=CHEF_STYLESHEETS,
    )


def render_compare(
    *,
    table: PlansTable,
    views: Sequence[WhatIfView],
    cooks: Sequence[tuple[str, str]],
    equipment: Sequence[tuple[str, str]],
    seconds: float,
    kept: int,
    plan: str,
    nav: Sequence[Choice],
    choices: Sequence[Choice],
    kitchen: str,
    date: dt.date,
    wrong: Sequence[str] = (),
) -> str:
    """Plans side by side, and what-ifs to try.

    Parameters
    ----------
    cooks, equipment
        What may be otherwise: ids and names.
    seconds
        Longest that a what-if may take.
    kept
        What-ifs of a day that are kept.
    plan
        Path of the plan.
    wrong
        Why what was asked for cannot be tried.
    """
    return render(
        "chef/compare.html",
        table=table,
        views=views,
        figures=figures(),
        waiting=_waiting(views),
        cooks=cooks,
        equipment=equipment,
        seconds=f"{seconds:g}",
        kept=kept,
        plan=plan,
        nav=nav,
        choices=choices,
        kitchen=kitchen,
        date=long_date(date),
        wrong=wrong,
        style="",
        stylesheets=CHEF_STYLESHEETS,
    )


def render_what_ifs(views: Sequence[WhatIfView], *, plan: str) -> str:
    """The part of the page of ``render_compare`` that changes while what-ifs are planned."""
    return render(
        "chef/what_ifs.html", views=views, figures=figures(), plan=plan, waiting=_waiting(views)
    )


def _waiting(views: Sequence[WhatIfView]) -> bool:
    return any(view.waits for view in views)
