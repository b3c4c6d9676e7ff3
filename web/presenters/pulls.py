"""Pull lists: what to fetch, by where it is stored, so that one trip is enough."""

from collections.abc import Iterable
from dataclasses import dataclass

from planner.sheet.types import PullItem
from web.presenters.preferences import Preferences
from web.presenters.quantities import is_weighed, mass, measured, number, pulled_mass
from web.presenters.typography import BY

_NOTHING_LEFT = 0.5
_SLIGHT_SHARE, _SLIGHT_MOST = 0.01, 5.0
"""Nothing worth naming is left over below half a gram, nor below this share of what is pulled or so
many grams, whichever is less: no scale for such a load shows it. Starting guess."""

_LEAST_PACKS = 0.1
"""Nobody takes a smaller part of a pack by eye; the weight is there. Starting guess."""


@dataclass(frozen=True, slots=True)
class PullView:
    """One line: the amount in its own unit, the same by weight and by packs, what is left over."""

    ingredient: str
    name: str
    amount: str
    that_is: str
    left_over: str
    note: str


@dataclass(frozen=True, slots=True)
class PullGroup:
    """What is fetched from one place."""

    storage: str
    lines: tuple[PullView, ...]


def pull_groups(pulls: Iterable[PullItem], preferences: Preferences) -> tuple[PullGroup, ...]:
    """Lines by place, places in the order they first come up, lines in the order given."""
    by_place: dict[str, list[PullView]] = {}
    for pull in pulls:
        by_place.setdefault(pull.storage, []).append(_pull_view(pull, preferences))
    return tuple(PullGroup(place, tuple(lines)) for place, lines in by_place.items())


def _pull_view(pull: PullItem, preferences: Preferences) -> PullView:
    taken = pull.grams + pull.left_over
    return PullView(
        ingredient=pull.ingredient,
        name=pull.name,
        amount=measured(pull.units, pull.unit, taken, preferences) if pull.units else "none",
        that_is=_that_is(pull, preferences),
        left_over=mass(pull.left_over, preferences) if pull.left_over > _slight(pull) else "",
        note=pull.note,
    )


def _slight(pull: PullItem) -> float:
    return max(_NOTHING_LEFT, min(_SLIGHT_MOST, _SLIGHT_SHARE * pull.grams))


def _that_is(pull: PullItem, preferences: Preferences) -> str:
    """The same amount by weight and by packs, where that says something new."""
    ways = []
    if pull.units and not is_weighed(pull.unit):
        ways.append(pulled_mass(pull.grams + pull.left_over, preferences))
    packs = number(pull.packs, 2)
    if pull.packs >= _LEAST_PACKS and pull.pack != pull.unit and not is_weighed(pull.pack):
        ways.append(f"{packs}{BY}{pull.pack}")
    return ", ".join(ways)
