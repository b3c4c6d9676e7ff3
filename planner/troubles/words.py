"""Troubles and remedies in whole sentences, the same on a terminal and on a page."""

from collections.abc import Iterator

from planner.plan import Plan, Remedy, Trouble
from planner.schedule.timetable import Term
from planner.wording import counted, sentence

NO_ROOM_FOUND = sentence("No room was found in the time searched; a longer search may find some.")


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
    binding = f"{trouble.binding}{_missing(trouble)}"
    binds = (
        sentence("What binds: {binding}.", binding=binding)
        if found
        else f"{NO_ROOM_FOUND} " + sentence("What binds in this plan: {binding}.", binding=binding)
    )
    line = f"{trouble.text}. {binds}"
    names = "; ".join(one.name for one in trouble.left_out)
    return f"{line} " + sentence("Left out with it: {names}.", names=names) if names else line


def short_line(plan: Plan) -> str:
    """What is short in all, each dish and service once; empty where nothing is."""
    portions, kilos = plan.short_portions, plan.short_kilos
    parts = (
        counted("{n} portion", "{n} portions", portions) if portions else "",
        sentence("about {kilos} kg of the kitchen's own pars and batches", kilos=kilos)
        if kilos
        else "",
    )
    return (
        sentence("Short in all: {list}.", list=" and ".join(filter(None, parts)))
        if any(parts)
        else ""
    )


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
        return "; " + sentence("{n} unit-minutes of it missing", n=trouble.minutes)
    return "; " + sentence("{n} hands-on min missing", n=trouble.minutes)


def _changes(remedy: Remedy) -> Iterator[str]:
    portions, kilos = remedy.short_portions_before, remedy.short_kilos_before
    minutes = remedy.late_minutes_before
    for before, after, what in (
        (portions, remedy.short_portions, sentence("{n} portions short", n=portions)),
        (kilos, remedy.short_kilos, sentence("{n} kg short of par or batch", n=kilos)),
        (minutes, remedy.late_minutes, sentence("{n} min late in all", n=minutes)),
    ):
        if before == after > 0:
            yield sentence("still {numbers}", numbers=what)
        elif before or after:
            yield f"{what} → {after}"
