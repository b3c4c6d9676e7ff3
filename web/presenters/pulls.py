"""Pull lists: what to fetch, by where it is stored, and for when where it must stay cold."""

from collections.abc import Iterable
from dataclasses import dataclass

from planner.kitchen.safety import COLD_HOLDING_C, COLD_HOLDING_F
from planner.sheet.types import LeftOutItem, PullItem, StraightItem
from web.language import _, ngettext, pgettext
from web.presenters.clock import clock, short_date
from web.presenters.preferences import Preferences
from web.presenters.quantities import is_weighed, mass, measured, number, pieces, pulled_mass
from web.presenters.storage import storage_words
from web.presenters.typography import BY
from web.sentences import said

_NOTHING_LEFT = 0.5
_SLIGHT_SHARE, _SLIGHT_MOST = 0.01, 5.0
"""Nothing worth naming is left over below half a gram, nor below this share of what is pulled or so
many grams, whichever is less: no scale for such a load shows it. Starting guess."""

_SCALE_STEP = 1.0
"""What is weighed out is rounded up to a gram; that gram is not left over."""

_MOST_TIMES = 4
"""More times beside one food nobody reads; the sheets of the cooks have them. Starting guess."""

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
    when: str


@dataclass(frozen=True, slots=True)
class PullGroup:
    """What is fetched from one place; raw animal food is a group of its own."""

    storage: str
    apart: str
    lines: tuple[PullView, ...]


@dataclass(frozen=True, slots=True)
class StraightView:
    """Food that a dish takes as it is: how much, for which dish, by when, and from where."""

    item: str
    name: str
    amount: str
    dish: str
    due: str
    storage: str


@dataclass(frozen=True, slots=True)
class LeftOutView:
    """Food that stays where it is: how much, and what goes without it."""

    item: str
    name: str
    amount: str
    wanted_for: str


def left_out_views(
    left_out: Iterable[LeftOutItem], preferences: Preferences
) -> tuple[LeftOutView, ...]:
    """What is wanted and not pulled, in the order given."""
    return tuple(
        LeftOutView(
            item=one.item,
            name=_("%(food)s, prepared stock", food=one.name) if one.prepared else one.name,
            amount=_amount(one, preferences),
            wanted_for="; ".join(said(use) for use in one.wanted_for),
        )
        for one in left_out
    )


def pull_groups(pulls: Iterable[PullItem], preferences: Preferences) -> tuple[PullGroup, ...]:
    """Lines by place, places in the order they first come up, lines in the order given."""
    by_place: dict[tuple[str, bool], list[PullView]] = {}
    for pull in pulls:
        key = (pull.storage, pull.raw_animal)
        by_place.setdefault(key, []).append(_pull_view(pull, preferences))
    return tuple(
        PullGroup(storage_words(place), _raw_apart() if raw else "", tuple(lines))
        for (place, raw), lines in by_place.items()
    )


def cold_words(groups: Iterable[PullGroup]) -> str:
    """How food with a time beside it waits for it; empty where no line has one."""
    if not any(line.when for group in groups for line in group.lines):
        return ""
    return _(
        "Lines with 'for' and a time wait in the cold until that batch begins: "
        "%(celsius)s C (%(fahrenheit)s F) or below, frozen food frozen "
        "(FDA Food Code 3-501.16; the local food code governs). Fetch the rest in one trip.",
        celsius=f"{COLD_HOLDING_C:g}",
        fahrenheit=f"{COLD_HOLDING_F:g}",
    )


def _raw_apart() -> str:
    return _("raw animal food, below and apart from food that is ready to eat")


def straight_views(
    straight: Iterable[StraightItem], preferences: Preferences
) -> tuple[StraightView, ...]:
    """What goes straight to the line, in the order given."""
    return tuple(
        StraightView(
            item=one.item,
            name=one.name,
            amount=_amount(one, preferences),
            dish=said(one.dish),
            due=str(clock(one.due, preferences)),
            storage=_straight_from(one),
        )
        for one in straight
    )


def _straight_from(one: StraightItem) -> str:
    """``walk-in, stays cold`` or ``cold, prepared stock, use by Fri 27 Nov``."""
    parts = [storage_words(one.storage)]
    if one.prepared:
        parts.append(_("prepared stock"))
    elif one.keeps_cold:
        parts.append(_("stays cold"))
    if one.use_by is not None:
        parts.append(_("use by %(day)s", day=short_date(one.use_by)))
    return ", ".join(parts)


def _amount(one: StraightItem | LeftOutItem, preferences: Preferences) -> str:
    weight = pulled_mass(one.grams, preferences)
    if one.pieces is None or not one.piece:
        return weight
    return f"{pieces(one.pieces, one.piece)}, {weight}"


def _pull_view(pull: PullItem, preferences: Preferences) -> PullView:
    taken = pull.grams + pull.left_over
    return PullView(
        ingredient=pull.ingredient,
        name=said(pull.name),
        amount=measured(pull.units, pull.unit, taken, preferences)
        if pull.units
        else pgettext("amount", "none"),
        that_is=_that_is(pull, preferences),
        left_over=mass(pull.left_over, preferences) if pull.left_over > _slight(pull) else "",
        note=said(pull.note),
        when=_when(pull, preferences),
    )


def _when(pull: PullItem, preferences: Preferences) -> str:
    """``for 16:40``, or each time with its part: ``for 09:26 (523 g), 12:47 (2.1 kg)``.

    More than a line holds are told by the first: ``for 07:36, then 7 times more``.
    """
    if not pull.uses:
        return ""
    time = clock(pull.uses[0][0], preferences)
    if len(pull.uses) == 1:
        return pgettext("time", "for %(time)s", time=time)
    if len(pull.uses) > _MOST_TIMES:
        return ngettext(
            "for %(time)s, then %(n)s time more",
            "for %(time)s, then %(n)s times more",
            len(pull.uses) - 1,
            time=time,
        )
    times = (
        f"{clock(minute, preferences)} ({pulled_mass(grams, preferences)})"
        for minute, grams in pull.uses
    )
    return pgettext("time", "for %(time)s", time=", ".join(times))


def _slight(pull: PullItem) -> float:
    least = _SCALE_STEP if is_weighed(pull.unit) else _NOTHING_LEFT
    return max(least, min(_SLIGHT_MOST, _SLIGHT_SHARE * pull.grams))


def _that_is(pull: PullItem, preferences: Preferences) -> str:
    """The same amount by weight and by packs, where that says something new."""
    ways = []
    if pull.units and not is_weighed(pull.unit):
        ways.append(pulled_mass(pull.grams + pull.left_over, preferences))
    packs = number(pull.packs, 2)
    if pull.packs >= _LEAST_PACKS and pull.pack != pull.unit and not is_weighed(pull.pack):
        ways.append(f"{packs}{BY}{pull.pack}")
    return ", ".join(ways)
