"""Plans as a list."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from web.language import pgettext
from web.presenters.clock import long_date


@dataclass(frozen=True, slots=True)
class PlanEntry:
    """One plan in the list.

    ``href`` is None while there is nothing to open yet; ``state`` says how it stands (ready, being
    planned, failed) and ``summary`` the rest in a few words.
    """

    kitchen: str
    date: dt.date
    href: str | None
    state: str
    summary: str = ""


@dataclass(frozen=True, slots=True)
class PlanView:
    """One plan in words."""

    kitchen: str
    date: str
    href: str | None
    state: str
    summary: str


def state_words(state: str) -> str:
    """How a plan stands, in words: ``state`` is queued, running, done or failed."""
    match state:
        case "queued":
            return pgettext("plan", "waiting")
        case "running":
            return pgettext("plan", "being planned")
        case "done":
            return pgettext("plan", "ready")
        case _:
            return pgettext("plan", "failed")


def plan_views(plans: Sequence[PlanEntry]) -> tuple[PlanView, ...]:
    """The plans in the order given."""
    return tuple(
        PlanView(plan.kitchen, long_date(plan.date), plan.href, plan.state, plan.summary)
        for plan in plans
    )
