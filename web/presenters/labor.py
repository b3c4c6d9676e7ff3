"""Where the paid minutes go, what batching saved, and how sure the plan is."""

from dataclasses import dataclass

from planner.sheet.types import KitchenSheet, Objective
from web.language import _, ngettext
from web.presenters.clock import duration
from web.sentences import said


@dataclass(frozen=True, slots=True)
class LaborRow:
    """Minutes and wages of one cook, or of all of them."""

    cook: str
    hands_on: str
    set_up: str
    changeover: str
    waiting: str
    paid: str
    wages: str


@dataclass(frozen=True, slots=True)
class TermView:
    """One objective term: its value, and how sure it is that nothing does better."""

    name: str
    meaning: str
    value: str
    sure: str


_IN_MINUTES = frozenset({"labor", "finish"})
"""Terms that are plain minutes; the others are weighted and have no unit of time."""


def labor_rows(sheet: KitchenSheet) -> tuple[LaborRow, ...]:
    """One row per cook."""
    return tuple(_row(*line) for line in sheet.labor)


def labor_total(sheet: KitchenSheet) -> LaborRow:
    """The sum over all cooks."""
    hands_on = set_up = changeover = waiting = paid = 0
    wages = 0.0
    for line in sheet.labor:
        hands_on += line[1]
        set_up += line[2]
        changeover += line[3]
        waiting += line[4]
        paid += line[5]
        wages += line[6]
    return _row(_("All cooks"), hands_on, set_up, changeover, waiting, paid, wages)


def saving(sheet: KitchenSheet) -> str:
    """What batching saved against the same work done one dish after the other."""
    saved, whole = sheet.saved_minutes, sheet.dish_by_dish_minutes
    if whole <= 0:
        return ""
    if not sheet.comparable:
        return _(
            "No saving is stated: food is short today, so this plan and dish by dish (%(time)s) "
            "are not of the same food.",
            time=duration(whole),
        )
    if saved < 0:
        return _(
            "Batching costs %(more)s more than the same work done dish by dish (%(time)s).",
            more=duration(-saved),
            time=duration(whole),
        )
    if saved == 0:
        return _(
            "Batching saves nothing against the same work done dish by dish (%(time)s).",
            time=duration(whole),
        )
    return _(
        "Batching saves %(saved)s, %(share)s of the same work done dish by dish (%(time)s).",
        saved=duration(saved),
        share=f"{saved / whole:.0%}",
        time=duration(whole),
    )


def cleaning(sheet: KitchenSheet) -> str:
    """How often surfaces and tools are cleaned during the day; empty where never."""
    if not sheet.cleans:
        return ""
    return ngettext(
        "%(n)s clean of surfaces and tools, %(time)s of the changeover; cleaning down is not "
        "planned.",
        "%(n)s cleans of surfaces and tools, %(time)s of the changeover; cleaning down is not "
        "planned.",
        sheet.cleans,
        time=duration(sheet.clean_minutes),
    )


def term_views(sheet: KitchenSheet) -> tuple[TermView, ...]:
    """The objective, first term first."""
    return tuple(_term(objective) for objective in sheet.objective)


def how_sure(sheet: KitchenSheet) -> str:
    """The whole plan's standing in one sentence."""
    if sheet.objective and all(objective.proven for objective in sheet.objective):
        return _("Every line below is proven: no plan does better.")
    proven = sum(objective.proven for objective in sheet.objective)
    if proven:
        return _(
            "%(proven)s of %(all)s lines are proven; for the rest see the bounds.",
            proven=proven,
            all=len(sheet.objective),
        )
    return _("The plan keeps every rule; none of its lines is proven best yet.")


def _row(
    cook: str, hands_on: int, set_up: int, changeover: int, waiting: int, paid: int, wages: float
) -> LaborRow:
    return LaborRow(
        cook,
        duration(hands_on),
        duration(set_up),
        duration(changeover),
        duration(waiting),
        duration(paid),
        f"{wages:,.2f}",
    )


def _term(objective: Objective) -> TermView:
    name, meaning = _named(objective.term)
    write = duration if objective.term in _IN_MINUTES else str
    return TermView(name, meaning, write(objective.value), _sureness(objective))


def _named(term: str) -> tuple[str, str]:
    """A term's name and what it counts."""
    match term:
        case "short":
            return _("Short, weighted"), _(
                "portions not made x weight of their dish, and kg of own pars; guests' portions, "
                "each counted once, are told under Short"
            )
        case "tardiness":
            return _("Lateness"), _("minutes after due, weighted by service")
        case "labor":
            return _("Labor"), _("hands-on, set-up, changeover and overtime minutes of all cooks")
        case "freshness":
            return _("Fresh food waiting"), _("minutes made before due, weighted")
        case "finish":
            return _("Last work done"), _("minutes from the first start to the last finish")
        case _:
            return term.capitalize(), ""


def _sureness(objective: Objective) -> str:
    if objective.proven:
        return _("Proven: as good as it gets, the lines above kept.")
    write = duration if objective.term in _IN_MINUTES else str
    if objective.bound <= 0:
        return _("Not proven: nothing rules out 0.")
    return _(
        "At most %(gap)s could still be saved: no plan goes below %(bound)s (%(why)s).",
        gap=f"{objective.gap:.0%}",
        bound=write(objective.bound),
        why=said(objective.relaxation),
    )
