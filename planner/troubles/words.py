"""Troubles and remedies in whole sentences, the same on a terminal and on a page."""

from collections.abc import Iterator

from planner.plan import Plan, Remedy, Trouble
from planner.schedule.timetable import Term

NO_ROOM_FOUND = "No room was found in the time searched; a longer search may find some."


def trouble_lines(plan: Plan) -> tuple[str, ...]:
    """A sentence or more for each trouble of a plan, in its order."""
    proven = any(one.term is Term.SHORT and one.proven for one in plan.solution.bounds)
    return tuple(trouble_line(trouble, proven=proven) for trouble in plan.troubles)


def trouble_line(trouble: Trouble, *, proven: bool = True) -> str:
    """What is short or late, what binds, how many minutes are missing, what is left out with it.

    ``proven``: no plan leaves less short. Else what binds is what this plan shows, and the line
    says that only the search has found no room.
    """
    found = proven or not _is_for_want_of_room(trouble)
    binds = "What binds" if found else f"{NO_ROOM_FOUND} What binds in this plan"
    line = f"{trouble.text}. {binds}: {trouble.binding}{_missing(trouble)}."
    names = "; ".join(one.name for one in trouble.left_out)
    return f"{line} Left out with it: {names}." if names else line


def short_line(plan: Plan) -> str:
    """What is short in all, each dish and service once; empty where nothing is."""
    portions, kilos = plan.short_portions, plan.short_kilos
    parts = (
        f"{portions} portion{'' if portions == 1 else 's'}" if portions else "",
        f"about {kilos} kg of the kitchen's own pars and batches" if kilos else "",
    )
    return f"Short in all: {' and '.join(filter(None, parts))}." if any(parts) else ""


def remedy_line(remedy: Remedy) -> str:
    """What to change, and what it was found to bring: ``23 portions short → 0``."""
    text = remedy.text[:1].upper() + remedy.text[1:]
    return f"{text}: {', '.join(_changes(remedy))}."


def _is_for_want_of_room(trouble: Trouble) -> bool:
    """Whether it is short of hands, of a place or of a vessel, at least in part."""
    if trouble.kind != "short":
        return False
    # Of what lacks food, minutes or a resource are told for the part that has its food.
    partly = trouble.lacks == "food" and bool(trouble.minutes or trouble.resource)
    return partly or trouble.lacks in ("hands", "resource")


def _missing(trouble: Trouble) -> str:
    if trouble.kind != "short" or not trouble.minutes or trouble.lacks == "route":
        return ""
    if trouble.lacks == "resource":
        return f"; {trouble.minutes} unit-minutes of it missing"
    return f"; {trouble.minutes} hands-on min missing"


def _changes(remedy: Remedy) -> Iterator[str]:
    for before, after, what in (
        (remedy.short_portions_before, remedy.short_portions, "portions short"),
        (remedy.short_kilos_before, remedy.short_kilos, "kg short of par or batch"),
        (remedy.late_minutes_before, remedy.late_minutes, "min late in all"),
    ):
        if before == after > 0:
            yield f"still {after} {what}"
        elif before or after:
            yield f"{before} {what} → {after}"
