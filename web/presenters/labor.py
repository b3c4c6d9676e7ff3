"""Where the paid minutes go, what batching saved, and how sure the plan is."""

from dataclasses import dataclass

from planner.sheet.types import KitchenSheet, Objective
from web.presenters.clock import duration
from web.presenters.counting import counted


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


_TERMS: dict[str, tuple[str, str]] = {
    "short": (
        "Short, weighted",
        "portions not made x weight of their dish, and kg of own pars; guests' portions, each "
        "counted once, are told under Short",
    ),
    "tardiness": ("Lateness", "minutes after due, weighted by service"),
    "labor": ("Labor", "hands-on, set-up, changeover and overtime minutes of all cooks"),
    "freshness": ("Fresh food waiting", "minutes made before due, weighted"),
    "finish": ("Last work done", "minutes from the first start to the last finish"),
}
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
    return _row("All cooks", hands_on, set_up, changeover, waiting, paid, wages)


def saving(sheet: KitchenSheet) -> str:
    """What batching saved against the same work done one dish after the other."""
    saved, whole = sheet.saved_minutes, sheet.dish_by_dish_minutes
    against = f"the same work done dish by dish ({duration(whole)})"
    if whole <= 0:
        return ""
    if not sheet.comparable:
        return (
            "No saving is stated: food is short today, so this plan and dish by dish "
            f"({duration(whole)}) are not of the same food."
        )
    if saved < 0:
        return f"Batching costs {duration(-saved)} more than {against}."
    if saved == 0:
        return f"Batching saves nothing against {against}."
    return f"Batching saves {duration(saved)}, {saved / whole:.0%} of {against}."


def cleaning(sheet: KitchenSheet) -> str:
    """How often surfaces and tools are cleaned during the day; empty where never."""
    if not sheet.cleans:
        return ""
    times = counted(sheet.cleans, "clean", "cleans")
    minutes = duration(sheet.clean_minutes)
    said = f"{times} of surfaces and tools, {minutes} of the changeover"
    return f"{said}; cleaning down is not planned."


def term_views(sheet: KitchenSheet) -> tuple[TermView, ...]:
    """The objective, first term first."""
    return tuple(_term(objective) for objective in sheet.objective)


def how_sure(sheet: KitchenSheet) -> str:
    """The whole plan's standing in one sentence."""
    if sheet.objective and all(objective.proven for objective in sheet.objective):
        return "Every line below is proven: no plan does better."
    proven = sum(objective.proven for objective in sheet.objective)
    if proven:
        return f"{proven} of {len(sheet.objective)} lines are proven; for the rest see the bounds."
    return "The plan keeps every rule; none of its lines is proven best yet."


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
    name, meaning = _TERMS.get(objective.term, (objective.term.capitalize(), ""))
    write = duration if objective.term in _IN_MINUTES else str
    return TermView(name, meaning, write(objective.value), _sureness(objective))


def _sureness(objective: Objective) -> str:
    if objective.proven:
        return "Proven: as good as it gets, the lines above kept."
    write = duration if objective.term in _IN_MINUTES else str
    if objective.bound <= 0:
        return "Not proven: nothing rules out 0."
    return (
        f"At most {objective.gap:.0%} could still be saved: no plan goes below "
        f"{write(objective.bound)} ({objective.relaxation})."
    )
