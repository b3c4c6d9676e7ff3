"""Learned figures in words: the file's, the kitchen's own with its doubt, and what is odd."""

import datetime as dt
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from planner.kitchen.catalog import Catalog
from planner.kitchen.document import Kitchen
from planner.kitchen.work import Per
from planner.rates.apply import Change, figure_in
from planner.rates.ticked import Ticked
from planner.rates.types import Doubtful, Key, Kind, Learned, SkillRates
from web.language import _, ngettext
from web.presenters.quantities import number
from web.presenters.typography import TO
from web.sentences import said

_ASKED = 12
"""Batches that are asked about: nobody goes through more."""


@dataclass(frozen=True, slots=True)
class FigureView:
    """One figure. ``usual`` is what it is taken to be, ``between`` the 90 % about it."""

    name: str
    in_file: str
    usual: str
    between: str
    batches: str


@dataclass(frozen=True, slots=True)
class SkillView:
    """The figures of one skill, and how far its batches vary."""

    id: str
    skill: str
    figures: tuple[FigureView, ...]
    note: str


@dataclass(frozen=True, slots=True)
class DecisionView:
    """Rates taken over or back."""

    when: str
    what: str


@dataclass(frozen=True, slots=True)
class RatesView:
    """The page."""

    explained: str
    skills: tuple[SkillView, ...]
    questions: tuple[str, ...]
    left_out: tuple[str, ...]
    changes: str
    cautious: str
    can_take_over: bool
    set_up_ticked: bool


def rates_view(
    kitchen: Kitchen,
    skills: Sequence[SkillRates],
    ticked: Ticked,
    days: int,
    changes: Sequence[Change],
    cautious: Sequence[Change],
) -> RatesView:
    """All that is learned, and what taking it over would change."""
    catalog = Catalog(kitchen)
    doubtful = [one for skill in skills for one in skill.doubtful]
    doubtful.sort(key=lambda one: -abs(one.observation.minutes - one.usual))
    return RatesView(
        explained=ngettext(
            "From %(batches)s batches ticked on one day of the last 60.",
            "From %(batches)s batches ticked on %(n)s days of the last 60.",
            days,
            n=days,
            batches=sum(skill.batches for skill in skills),
        ),
        skills=tuple(_skill(catalog, one) for one in skills),
        questions=tuple(_question(one) for one in doubtful[:_ASKED]),
        left_out=_left_out(ticked),
        changes=_changed(changes),
        cautious=_changed(cautious),
        can_take_over=bool(changes or cautious),
        set_up_ticked=kitchen.rules.set_up_ticked,
    )


class Decided(StrEnum):
    """What was decided on rates."""

    OVER = "over"
    BACK = "back"
    SET_UP = "set-up"
    FIRST_CUT = "first cut"


def decision_view(decided: Decided, at: dt.datetime) -> DecisionView:
    """A decision in words; ``at`` on the kitchen's wall."""
    what = {
        Decided.OVER: _("learned rates taken over"),
        Decided.BACK: _("taken back"),
        Decided.SET_UP: _("Start is ticked before board and knife are got"),
        Decided.FIRST_CUT: _("Start is ticked at the first cut"),
    }[decided]
    return DecisionView(f"{at:%Y-%m-%d %H:%M}", what)


def _skill(catalog: Catalog, skill: SkillRates) -> SkillView:
    order = {Kind.RATE: 0, Kind.SET_UP: 1, Kind.SLOWNESS: 2}
    figures = sorted(skill.figures, key=lambda one: (order[one.key.kind], one.key))
    return SkillView(
        id=f"skill-{skill.skill}",
        skill=skill.skill,
        figures=tuple(_figure(catalog, one) for one in figures),
        note=_(
            "From batch to batch, minutes vary by about %(spread)s %%; %(wrong)s %% of ticks look "
            "forgotten or shared.",
            spread=number(skill.spread * 100, 0),
            wrong=number(skill.forgotten * 100, 0),
        ),
    )


def _figure(catalog: Catalog, figure: Learned) -> FigureView:
    low, high = figure.interval()
    in_file = figure_in(catalog.kitchen, figure.key)
    if figure.key.kind is Kind.SLOWNESS:
        # Cooks have a pace: twice as slow is half the pace.
        low, high = 1 / high, 1 / low
        usual, in_file = 1 / figure.value, None if in_file is None else 1 / in_file
    else:
        usual = figure.value
    return FigureView(
        name=_name(catalog, figure.key),
        in_file="" if in_file is None else number(in_file, 2),
        usual=number(usual, 2),
        between=f"{number(low, 2)}{TO}{number(high, 2)}",
        batches=number(figure.batches, 0),
    )


def _name(catalog: Catalog, key: Key) -> str:
    if key.kind is Kind.SLOWNESS:
        cook = catalog.cooks.get(key.cook)
        return _("Pace of %(cook)s", cook=key.cook if cook is None else cook.name)
    operation = catalog.operations.get(key.operation)
    doing = key.operation if operation is None else operation.name
    if key.kind is Kind.SET_UP:
        return _("%(operation)s: set-up, minutes", operation=doing)
    food = catalog.foods.get(key.food)
    return _(
        "%(operation)s, %(food)s: minutes per %(unit)s",
        operation=doing,
        food=key.food if food is None else food.name,
        unit="" if operation is None else unit_name(operation.per),
    )


def unit_name(per: Per) -> str:
    """What a rate counts, as people say it."""
    return _("piece") if per is Per.EACH else per.value


def _question(one: Doubtful) -> str:
    return _(
        "%(batch)s: ticked after %(ticked)s min, usually about %(usual)s. It does not count.",
        batch=one.observation.source,
        ticked=number(one.observation.minutes, 1),
        usual=number(one.usual, 0),
    )


def _left_out(ticked: Ticked) -> tuple[str, ...]:
    whys = Counter(one.why for one in ticked.left_out)
    return tuple(
        ngettext("%(n)s batch: %(why)s", "%(n)s batches: %(why)s", count, n=count, why=said(why))
        for why, count in whys.most_common()
    )


def _changed(changes: Sequence[Change]) -> str:
    longer = sum(one.after > one.before for one in changes)
    return _(
        "%(n)s figures change: %(longer)s are longer than the kitchen file's, %(shorter)s shorter.",
        n=len(changes),
        longer=longer,
        shorter=len(changes) - longer,
    )
