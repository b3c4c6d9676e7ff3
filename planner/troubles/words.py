"""Troubles and remedies in whole sentences, the same on a terminal and on a page."""

from collections.abc import Iterator

from planner.plan import Plan, Remedy, Trouble


def trouble_line(trouble: Trouble) -> str:
    """What is short or late, what binds, how many minutes are missing, what is left out with it."""
    line = f"{trouble.text}. What binds: {trouble.binding}{_missing(trouble)}."
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
