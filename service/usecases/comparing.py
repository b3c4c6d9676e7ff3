"""Compare a plan with the last ones of its day, and with what would be otherwise."""

import datetime as dt
import uuid
from dataclasses import dataclass
from enum import StrEnum
from zoneinfo import ZoneInfo

from planner.kitchen.document import Kitchen
from planner.kitchen.hours import shift_of
from planner.sheet.types import KitchenSheet
from planner.whatif.changes import with_covers, with_equipment, without_cook
from service.clock import Now
from service.comparing import WhatIf
from service.db.unit_of_work import Database, UnitOfWork
from service.db.what_ifs import Asked
from service.documents import kept_kitchen, kept_sheet, time_zone_of
from service.errors import Fault, NotFoundError, RequestError
from service.usecases.plans import plan_status, plan_texts
from service.values import PlanChoices, PlanState, PlanStatus, PlanSummary
from service.what_ifs import Comparisons
from web.chef.compare_view import Otherwise
from web.language import _

MOST_SECONDS = 4.0
"""For each of the four searches of a what-if: the sous chef waits. Starting guess."""
PERCENT = (-90, 300)
"""Least and most change of covers, percent. Starting guess."""
KEPT = 20
"""What-ifs of one day of a kitchen: what came of the oldest goes first. Starting guess."""


class Change(StrEnum):
    """What may be otherwise."""

    OUT = "out"
    """A cook is out."""
    COVERS = "covers"
    """So many percent more covers at all services, or fewer."""
    EQUIPMENT = "equipment"
    """One more of a kind of equipment."""


class ChangeError(RequestError):
    """There is no such change to compare with."""


@dataclass(frozen=True, slots=True)
class OtherPlan:
    """Another plan of the day with its sheet; ``release`` is its number on the floor, or None."""

    plan: PlanSummary
    sheet: KitchenSheet
    release: int | None


@dataclass(frozen=True, slots=True)
class Compared:
    """A plan, the last one made before it, what the floor works from, and its what-ifs.

    ``zone`` is that of the clock on the kitchen's wall; ``cooks`` are those who are in,
    ``equipment`` all kinds, each by id and name.
    """

    plan: PlanStatus
    sheet: KitchenSheet
    release: int | None
    others: tuple[OtherPlan, ...]
    zone: ZoneInfo
    cooks: tuple[tuple[str, str], ...]
    equipment: tuple[tuple[str, str], ...]
    what_ifs: tuple[Asked, ...]


def compared(database: Database, plan_id: uuid.UUID) -> Compared:
    """A plan beside others of its day.

    Raises
    ------
    NotFoundError
        There is no such plan.
    NotReadyError, NothingMadeError
        It has made nothing yet, or has failed.
    """
    status = plan_status(database, plan_id)
    texts = plan_texts(database, plan_id)
    with database.reading() as unit:
        release = unit.floor.release(status.kitchen, status.date)
        plans = unit.plans.of_day(status.kitchen, status.date)
        earlier = [
            plan
            for plan in plans
            if plan.state is PlanState.DONE and plan.created_at < status.created_at
        ]
        shown = {plan.id: plan for plan in earlier[:1]}
        if release is not None and release.plan_id != plan_id:
            shown |= {plan.id: plan for plan in plans if plan.id == release.plan_id}
        others = tuple(
            OtherPlan(
                plan,
                kept_sheet(found.sheet),
                release.number if release and release.plan_id == plan.id else None,
            )
            for plan in shown.values()
            if (found := unit.plans.texts(plan.id)) is not None
        )
        version, _, _ = unit.plans.inputs(plan_id)
        kitchen = kept_kitchen(unit.kitchens.version(version).document)
        what_ifs = unit.what_ifs.of(plan_id)
    return Compared(
        plan=status,
        sheet=kept_sheet(texts.sheet),
        release=release.number if release and release.plan_id == plan_id else None,
        others=others,
        zone=ZoneInfo(kitchen.time_zone),
        cooks=tuple((one.id, one.name) for one in kitchen.cooks if shift_of(one, status.date)),
        equipment=tuple((one.id, one.name) for one in kitchen.equipment),
        what_ifs=what_ifs,
    )


@dataclass(frozen=True, slots=True)
class Trying:
    """What it takes to try a what-if: where it is stored, who does it, clock, how to search."""

    database: Database
    comparisons: Comparisons
    now: Now
    choices: PlanChoices


def what_ifs_of(database: Database, plan_id: uuid.UUID) -> tuple[tuple[Asked, ...], ZoneInfo]:
    """What was asked of a plan, in the order it was asked, and the kitchen's time zone.

    Raises
    ------
    NotFoundError
        There is no such plan.
    """
    plan_status(database, plan_id)
    with database.reading() as unit:
        version, _, _ = unit.plans.inputs(plan_id)
        zone = time_zone_of(unit.kitchens.version(version).document)
        return unit.what_ifs.of(plan_id), ZoneInfo(zone)


def ask_what_if(
    tools: Trying, plan_id: uuid.UUID, change: str, value: str, *, actor: str
) -> uuid.UUID:
    """Have a plan's day planned as it is and changed, from the kitchen file it was made from.

    One that was asked for already is not planned again, unless it came to nothing.

    Parameters
    ----------
    change
        One of ``Change``.
    value
        Id of the cook or the equipment, or whole percent.

    Returns
    -------
    uuid.UUID
        Which what-if it is.

    Raises
    ------
    NotFoundError
        There is no such plan.
    ChangeError
        There is no such change, the value is none for it, or too many wait already.
    planner.kitchen.errors.KitchenErrors
        The changed kitchen makes no sense.
    """
    value = value.strip()
    status = plan_status(tools.database, plan_id)
    with tools.database.reading() as unit:
        version, _, _ = unit.plans.inputs(plan_id)
        kitchen = kept_kitchen(unit.kitchens.version(version).document)
    otherwise, changed = _changed(kitchen, status.date, change, value)
    with tools.database.writing() as unit:
        same = next((one for one in unit.what_ifs.of(plan_id) if one.otherwise == otherwise), None)
        if same is not None and not same.state.again:
            return same.id
        if same is None:
            _make_room(unit, plan_id)
            key = unit.what_ifs.add(plan_id, change, value, otherwise, actor=actor, now=tools.now())
        else:
            key = same.id
            unit.what_ifs.again(key, actor=actor, now=tools.now())
        unit.commit()
    seconds = min(tools.choices.seconds, MOST_SECONDS)
    choices = tools.choices.model_copy(update={"seconds": seconds})
    tools.comparisons.submit(key, WhatIf(kitchen, changed, status.date, choices))
    return key


def ask_again(tools: Trying, plan_id: uuid.UUID, what_if: uuid.UUID, *, actor: str) -> None:
    """Try one again that came to nothing; see ``ask_what_if`` for the errors."""
    with tools.database.reading() as unit:
        asked = _of_plan(unit, plan_id, what_if)
    ask_what_if(tools, plan_id, asked.change, asked.value, actor=actor)


def throw_away(tools: Trying, plan_id: uuid.UUID, what_if: uuid.UUID) -> None:
    """Throw a what-if away, and end it where it is being planned.

    Raises
    ------
    NotFoundError
        The plan has no such what-if.
    """
    with tools.database.writing() as unit:
        _of_plan(unit, plan_id, what_if)
        unit.what_ifs.remove(what_if)
        unit.commit()
    tools.comparisons.drop(what_if)


def _of_plan(unit: UnitOfWork, plan_id: uuid.UUID, what_if: uuid.UUID) -> Asked:
    for one in unit.what_ifs.of(plan_id):
        if one.id == what_if:
            return one
    raise NotFoundError(
        Fault(
            "what_if",
            str(what_if),
            _("this plan has no such what-if; it may have been thrown away"),
            _("Go back to the comparison of the plan"),
        )
    )


def _make_room(unit: UnitOfWork, plan_id: uuid.UUID) -> None:
    """Let the day have room for one more: the oldest that are over go."""
    there = unit.what_ifs.of_day(plan_id)
    over = [one for one in there if one.state.ended]
    too_many = len(there) - KEPT + 1
    if too_many > len(over):
        raise ChangeError(
            Fault(
                "what_if",
                str(len(there)),
                _("so many what-ifs of this day wait already"),
                _("Wait until some of them are there, or throw some away"),
            )
        )
    for one in over[: max(0, too_many)]:
        unit.what_ifs.remove(one.id)


def _changed(kitchen: Kitchen, date: dt.date, change: str, value: str) -> tuple[Otherwise, Kitchen]:
    match change:
        case Change.OUT:
            changed = without_cook(kitchen, date, value)
            name = next(one.name for one in kitchen.cooks if one.id == value)
            return Otherwise("out", name), changed
        case Change.COVERS:
            percent = _percent(value)
            factor = 1 + percent / 100
            # Half a cover counts as a whole one.
            changed = with_covers(kitchen, date, lambda now: int(now * factor + 0.5 + 1e-9))
            return Otherwise("covers", percent=percent), changed
        case Change.EQUIPMENT:
            known = next((one for one in kitchen.equipment if one.id == value), None)
            count = known.count + 1 if known else 1
            changed = with_equipment(kitchen, value, count)
            assert known is not None  # noqa: S101 - it would have been refused
            return Otherwise("equipment", known.name, count=count, before=known.count), changed
    raise ChangeError(
        Fault(
            "change",
            change[:60],
            _("there is no such change"),
            _("Use one of: %(known)s", known=", ".join(Change)),
        )
    )


def _percent(text: str) -> int:
    least, most = PERCENT
    try:
        percent = int(text.removesuffix("%").strip())
    except ValueError:
        percent = 0
    if percent == 0 or not least <= percent <= most:
        raise ChangeError(
            Fault(
                "percent",
                text[:60],
                _("this is no change of covers in whole percent"),
                _(
                    "Write one from %(least)s to %(most)s, such as 20 or -10",
                    least=least,
                    most=most,
                ),
            )
        )
    return percent
