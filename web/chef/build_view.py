"""A plan as it is made: where the search stands, in words."""

from collections.abc import Sequence
from dataclasses import dataclass

from planner.rates.types import ServiceChance
from web.language import _, ngettext
from web.presenters.chances import ChancesView, chances_view
from web.presenters.clock import duration
from web.presenters.preferences import Preferences


@dataclass(frozen=True, slots=True)
class Found:
    """A better plan, as it was found.

    ``late`` and ``short`` are weighted as the search weighs them; ``labor`` are minutes of work,
    ``seconds`` from the start of the search. ``least``: minutes of work that no such plan has less
    than, as far as is known; 0: nothing is.
    """

    seconds: float
    late: int
    short: int
    labor: int
    how: str
    least: int = 0


@dataclass(frozen=True, slots=True)
class BuildState:
    """Where a run stands. ``state`` is queued, running, done or failed."""

    state: str
    found: Sequence[Found]
    has_sheet: bool
    searched_for: float
    """Seconds it may search."""
    error: str = ""
    note: str = ""
    stopping: bool = False
    troubles: Sequence[str] = ()
    """What is late or short in the plan it ended with."""
    remedies: Sequence[str] = ()
    """What would help."""
    chances: Sequence[ServiceChance] = ()
    """How sure its services are of being ready."""
    moved: bool = False
    """Whether batches were moved by hand in it."""


@dataclass(frozen=True, slots=True)
class FoundView:
    """A better plan, in words."""

    seconds: str
    late: str
    short: str
    labor: str
    how: str
    least: str
    """What is known of how good it is; empty: nothing."""


@dataclass(frozen=True, slots=True)
class BuildView:
    """What the page of a run says. ``best`` is None before the first plan."""

    heading: str
    explained: str
    ended: bool
    failed: bool
    has_sheet: bool
    can_stop: bool
    best: FoundView | None
    gained: str
    steps: tuple[FoundView, ...]
    error: str
    note: str
    troubles: tuple[str, ...]
    remedies: tuple[str, ...]
    chances: ChancesView | None
    moved: bool = False


def build_view(build: BuildState, preferences: Preferences | None = None) -> BuildView:
    """A run in words, newest steps first."""
    steps = tuple(_found(one) for one in reversed(build.found))
    heading, explained = _heading(build)
    return BuildView(
        heading=heading,
        explained=explained,
        ended=build.state in ("done", "failed"),
        failed=build.state == "failed",
        has_sheet=build.has_sheet,
        can_stop=build.state in ("queued", "running") and not build.stopping,
        best=steps[0] if steps else None,
        gained=_gained(build.found),
        steps=steps,
        error=build.error,
        note=build.note,
        troubles=tuple(build.troubles),
        remedies=tuple(build.remedies),
        chances=chances_view(build.chances, preferences or Preferences()),
        moved=build.moved,
    )


def _heading(build: BuildState) -> tuple[str, str]:
    match build.state:
        case "queued":
            return (
                _("Waiting for its turn"),
                _("Another plan is being made; this one comes after it."),
            )
        case "running" if build.stopping:
            return _("Stopping"), _("The best plan so far is being written.")
        case "running" if not build.has_sheet:
            return (
                _("Making the first plan"),
                _("It is there within seconds; the search goes on from it."),
            )
        case "running":
            return (
                _("Looking for a better plan"),
                _(
                    "For %(seconds)s s at most; if something is late or short, remedies are tried "
                    "after that.",
                    seconds=f"{build.searched_for:g}",
                ),
            )
        case "failed":
            return _("There is no plan"), ""
    return _("The plan is ready"), ""


def _found(one: Found) -> FoundView:
    return FoundView(
        seconds=f"{one.seconds:.1f} s",
        late=_("nothing") if one.late == 0 else f"{one.late} min",
        short=_("nothing")
        if one.short == 0
        else ngettext("%(n)s portion", "%(n)s portions", one.short),
        labor=duration(one.labor),
        how=one.how,
        least=_least(one),
    )


def _least(one: Found) -> str:
    if not one.least:
        return ""
    if one.least >= one.labor:
        return _("It is the least any such plan can have")
    return _("No such plan has less than %(time)s", time=duration(one.least))


def _gained(found: Sequence[Found]) -> str:
    """What the search has brought since the first plan."""
    if len(found) < 2:
        return ""
    first, last = found[0], found[-1]
    gains = []
    if first.short > last.short:
        gains.append(
            ngettext(
                "%(n)s portion fewer short", "%(n)s portions fewer short", first.short - last.short
            )
        )
    if first.late > last.late:
        gains.append(_("%(n)s min less late", n=first.late - last.late))
    if first.labor > last.labor:
        gains.append(_("%(time)s less work", time=duration(first.labor - last.labor)))
    return ", ".join(gains)
