"""Something has happened on the floor: the rest of the day is planned anew."""

import datetime as dt
import uuid
from collections.abc import Sequence

from planner.replan.events import Event
from service.clock import Now
from service.db.unit_of_work import Database, UnitOfWork
from service.errors import ConflictError, Fault
from service.replanning import RestOrder, event_texts
from service.usecases.floor import newest_release, tick_of
from service.usecases.plans import plan_status
from service.usecases.released import ReleasedPlans, released_plan
from service.values import PlanChoices, PlanStatus
from web.language import _

_DAY = 24 * 60


def request_rest(
    database: Database,
    plans: ReleasedPlans,
    slug: str,
    date: dt.date,
    events: Sequence[Event],
    choices: PlanChoices,
    *,
    actor: str,
    now: Now,
) -> PlanStatus:
    """Store a run that plans the rest of a day anew after ``events``, for whoever takes it.

    Raises
    ------
    NotFoundError
        Nothing is released for that day.
    ConflictError
        The day is over.
    """
    release = newest_release(database, slug, date)
    plan = plans.of(release.plan_id)
    with database.writing() as unit:
        if plan.minutes(now()) >= max(plan.sheet.end, _DAY):
            raise ConflictError(
                Fault(
                    "date", str(date), _("the day is over"), _("Plan another day from its own page")
                )
            )
        version_id, *_others = unit.plans.inputs(release.plan_id)
        plan_id = unit.runs.add(
            unit.kitchens.version(version_id),
            date,
            choices,
            actor=actor,
            now=now(),
            after_release=release.number,
            news=event_texts().dump_python(tuple(events), mode="json"),
        )
        unit.commit()
    return plan_status(database, plan_id)


def rest_order(
    unit: UnitOfWork, plan_id: uuid.UUID, date: dt.date, now: dt.datetime
) -> RestOrder | None:
    """What a run that plans a day anew starts from, as the floor stands now; None: it does not."""
    known = unit.plans.news(plan_id)
    if known is None:
        return None
    number, news = known
    slug = unit.plans.kitchen_of(plan_id)
    release = unit.floor.release(slug, date, number)
    texts = None if release is None else unit.plans.texts(release.plan_id)
    if release is None or texts is None:
        raise LookupError(f"plan {plan_id} goes on from release {number}, which is not there")
    plan = released_plan(unit, release.plan_id)
    return RestOrder(
        document=texts.document,
        course=texts.course,
        ticks=tuple(tick_of(plan, tick) for tick in unit.floor.ticks(release)),
        events=event_texts().validate_python(news),
        now=max(0, int(plan.minutes(now))),  # before the day itself nothing has begun
    )
