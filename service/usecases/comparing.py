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
from service.comparing import Asked, Comparisons, WhatIf
from service.db.unit_of_work import Database
from service.documents import kept_kitchen, kept_sheet
from service.errors import Fault, RequestError
from service.usecases.plans import plan_status, plan_texts
from service.values import PlanChoices, PlanState, PlanStatus, PlanSummary
from web.chef.compare_view import Otherwise
from web.language import _

MOST_SECONDS = 4.0
"""For each of the four searches of a what-if: the sous chef waits. Starting guess."""
PERCENT = (-90, 300)
"""Least and most change of covers, percent. Starting guess."""


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


def compared(database: Database, comparisons: Comparisons, plan_id: uuid.UUID) -> Compared:
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
    return Compared(
        plan=status,
        sheet=kept_sheet(texts.sheet),
        release=release.number if release and release.plan_id == plan_id else None,
        others=others,
        zone=ZoneInfo(kitchen.time_zone),
        cooks=tuple((one.id, one.name) for one in kitchen.cooks if shift_of(one, status.date)),
        equipment=tuple((one.id, one.name) for one in kitchen.equipment),
        what_ifs=comparisons.of(plan_id),
    )


def ask_what_if(
    database: Database,
    comparisons: Comparisons,
    plan_id: uuid.UUID,
    change: str,
    value: str,
    choices: PlanChoices,
) -> Asked:
    """Have a plan's day planned as it is and changed, from the kitchen file it was made from.

    Parameters
    ----------
    change
        One of ``Change``.
    value
        Id of the cook or the equipment, or whole percent.
    choices
        How to search.

    Raises
    ------
    NotFoundError
        There is no such plan.
    ChangeError
        There is no such change, or the value is none for it.
    planner.kitchen.errors.KitchenErrors
        The changed kitchen makes no sense.
    """
    status = plan_status(database, plan_id)
    with database.reading() as unit:
        version, _, _ = unit.plans.inputs(plan_id)
        kitchen = kept_kitchen(unit.kitchens.version(version).document)
    otherwise, changed = _changed(kitchen, status.date, change, value.strip())
    seconds = min(choices.seconds, MOST_SECONDS)
    what_if = WhatIf(
        otherwise, kitchen, changed, status.date, choices.model_copy(update={"seconds": seconds})
    )
    return comparisons.ask(plan_id, what_if)


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
