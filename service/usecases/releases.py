"""What a release changes, before it is made and after."""

import datetime as dt
import uuid
from dataclasses import dataclass

from planner.sheet.types import KitchenSheet
from service.db.unit_of_work import Database, UnitOfWork
from service.documents import kept_sheet
from service.errors import Fault, NotFoundError
from service.floor_values import Release
from service.usecases.floor import release_in
from service.usecases.plans import plan_status, plan_texts
from service.values import PlanStatus
from web.language import _, ngettext


@dataclass(frozen=True, slots=True)
class ToRelease:
    """A plan beside what the floor works from now.

    ``before`` and its sheet are None before a day's first release; ``said`` is how many ticks of it
    there are.
    """

    plan: PlanStatus
    sheet: KitchenSheet
    before: Release | None
    before_sheet: KitchenSheet | None
    said: int


@dataclass(frozen=True, slots=True)
class Released:
    """A release and the one before it, with their sheets; ``newest`` is the day's last number."""

    release: Release
    sheet: KitchenSheet
    before: Release | None
    before_sheet: KitchenSheet | None
    newest: int


def plan_to_release(database: Database, plan_id: uuid.UUID) -> ToRelease:
    """What releasing a plan would change.

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
        before = unit.floor.release(status.kitchen, status.date)
        said = unit.floor.count(before) if before else 0
        before_sheet = _sheet(unit, before) if before else None
    return ToRelease(status, kept_sheet(texts.sheet), before, before_sheet, said)


def released(database: Database, slug: str, date: dt.date, number: int | None = None) -> Released:
    """A day's release, the newest where no ``number`` is given, and the one before it.

    Raises
    ------
    NotFoundError
        Nothing is released for that day, or there is no such release.
    """
    with database.reading() as unit:
        newest = release_in(unit, slug, date)
        release = newest if number is None else unit.floor.release(slug, date, number)
        if release is None:
            raise NotFoundError(
                Fault(
                    "release",
                    str(number),
                    ngettext(
                        "there is %(n)s release of this day",
                        "there are %(n)s releases of this day",
                        newest.number,
                    ),
                    _("Choose one from 1 to %(newest)s", newest=newest.number),
                )
            )
        before = unit.floor.release(slug, date, release.number - 1)
        return Released(
            release,
            _sheet(unit, release),
            before,
            _sheet(unit, before) if before else None,
            newest.number,
        )


def _sheet(unit: UnitOfWork, release: Release) -> KitchenSheet:
    texts = unit.plans.texts(release.plan_id)
    if texts is None:
        raise LookupError(f"plan {release.plan_id} was released and has no sheet")
    return kept_sheet(texts.sheet)
