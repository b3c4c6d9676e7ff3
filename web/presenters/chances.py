"""How sure each service is of being ready on time, in words."""

from collections.abc import Sequence
from dataclasses import dataclass

from planner.rates.types import ServiceChance
from web.language import _
from web.presenters.clock import clock
from web.presenters.preferences import Preferences

_NEARLY = 0.995
"""What would round to all mornings, or to none, is said so."""


@dataclass(frozen=True, slots=True)
class ChanceView:
    """One service: ``chance`` as a number, and what it means."""

    service: str
    chance: str
    meaning: str
    last: str
    low: bool
    """It is late more often than on one morning in five."""


@dataclass(frozen=True, slots=True)
class ChancesView:
    """All services, and where the numbers come from."""

    services: tuple[ChanceView, ...]
    explained: str
    basis: str


def chances_view(chances: Sequence[ServiceChance], preferences: Preferences) -> ChancesView | None:
    """The chances in words; None where there are none."""
    if not chances:
        return None
    return ChancesView(
        services=tuple(_chance(one, preferences) for one in chances),
        explained=" ".join(filter(None, (_explained(), _since(chances, preferences)))),
        basis=_basis(chances),
    )


def _explained() -> str:
    return _(
        "The plan was worked through some thousand mornings. On each, batches take more or less "
        "than planned, cooks keep the order of their sheets, and what is late holds up what waits "
        "for it."
    )


def _since(chances: Sequence[ServiceChance], preferences: Preferences) -> str:
    since = chances[0].since
    if since is None:
        return ""
    return _(
        "Counted from %(time)s: what is done is done, what runs has the time left that such a "
        "batch has after so long.",
        time=clock(since, preferences),
    )


def _chance(one: ServiceChance, preferences: Preferences) -> ChanceView:
    words = [_("Of 100 mornings like this one, all is ready by %(due)s on %(n)s.")]
    if one.late_at_worst >= 1:
        words.append(_("On nine of ten it is ready by %(late)s."))
    if one.short:
        words.append(_("What the plan leaves short is not counted."))
    values = {
        "due": clock(one.due, preferences),
        "n": _of_100(one.chance),
        "late": clock(round(one.due + one.late_at_worst), preferences),
    }
    return ChanceView(
        service=one.name,
        chance=_("%(n)s of 100", n=values["n"]),
        meaning=" ".join(each % values for each in words),
        last=_("Most often the last to be ready: %(food)s", food=one.last),
        low=one.chance < 0.8,
    )


def _of_100(chance: float) -> str:
    if _NEARLY <= chance < 1:
        return _("more than 99")
    if 0 < chance <= 1 - _NEARLY:
        return _("fewer than 1")
    return f"{chance * 100:.0f}"


def _basis(chances: Sequence[ServiceChance]) -> str:
    learned = max(one.learned for one in chances)
    if learned == 0:
        return _(
            "Nobody has ticked this work yet: how far its minutes vary is a guess, a quarter more "
            "or less from batch to batch."
        )
    share = f"{learned * 100:.0f}"
    return _(
        "How far minutes vary was learned from ticks for %(share)s %% of the work, and is a guess "
        "for the rest.",
        share=share,
    )
