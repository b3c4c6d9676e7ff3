"""Release a plan to the floor, and read where the floor stands."""

import datetime as dt
import uuid
from dataclasses import dataclass

from planner.floor.state import Floor, floor_of
from planner.floor.ticks import Tick
from service.clock import Now
from service.db.floor import StoredTick
from service.db.unit_of_work import Database, UnitOfWork
from service.errors import ConflictError, Fault, NotFoundError
from service.floor_values import Release
from service.usecases.plans import plan_state, plan_status
from service.usecases.released import ReleasedPlan, ReleasedPlans, Told
from service.values import PlanState
from web.language import _


@dataclass(frozen=True, slots=True)
class FloorNow:
    """Where a day's floor stands: the release, its plan, what was said, and the time.

    ``version`` is how many ticks of the release are kept; ``now`` minutes after its midnight.
    """

    release: Release
    plan: ReleasedPlan
    floor: Floor
    version: int
    now: float


def release_plan(database: Database, plan_id: uuid.UUID, *, actor: str, now: Now) -> Release:
    """Give a plan to the floor as its day's newest. Released again while it is, nothing changes.

    Raises
    ------
    NotFoundError
        There is no such plan.
    ConflictError
        It is not done; or work of the release before has begun, which this plan knows nothing of.
    """
    status = plan_status(database, plan_id)
    if status.state is not PlanState.DONE:
        remedy = _("Wait until it is done, or stop its search")
        if status.state is PlanState.FAILED:
            remedy = _("Mend what its error names and plan the day anew")
        raise ConflictError(
            Fault(
                "plan",
                str(plan_id),
                _("it is %(state)s: nobody can work from it", state=plan_state(status.state)),
                remedy,
            )
        )
    with database.writing() as unit:
        newest = unit.floor.release(status.kitchen, status.date)
        if newest is not None and newest.plan_id == plan_id:
            return newest
        follows = status.after_release
        begun = newest is not None and unit.floor.count(newest) > 0
        if newest is not None and begun and follows != newest.number:
            raise ConflictError(
                Fault(
                    "plan",
                    str(plan_id),
                    _(
                        "work of release %(number)s has begun, which this plan knows nothing of",
                        number=newest.number,
                    ),
                    _("Plan the rest of the day from where it stands instead"),
                )
            )
        release = unit.floor.add_release(plan_id, actor=actor, now=now(), follows=follows)
        unit.commit()
    return release


def newest_release(database: Database, slug: str, date: dt.date) -> Release:
    """What a day's cooks work from.

    Raises
    ------
    NotFoundError
        Nothing is released for that day.
    """
    with database.reading() as unit:
        return release_in(unit, slug, date)


def floor_now(
    database: Database, plans: ReleasedPlans, slug: str, date: dt.date, *, now: Now
) -> FloorNow:
    """Where the floor stands.

    Raises
    ------
    NotFoundError
        Nothing is released for that day.
    """
    with database.reading() as unit:
        release = release_in(unit, slug, date)
        ids = unit.floor.tick_ids(release)
        told = plans.told.get(release.id) or Told()
        new = unit.floor.ticks_of([one for one in ids if one not in told.ticks])
    plan = plans.of(release.plan_id)
    if tuple(told.ticks) != ids:
        read = {key: tick_of(plan, one) for key, one in new.items()}
        ticks = {one: read.get(one) or told.ticks[one] for one in ids}
        told = plans.told.put(release.id, Told(ticks, floor_of(ticks.values())))
    return FloorNow(
        release=release,
        plan=plan,
        floor=told.floor,
        version=len(ids),
        now=plan.minutes(now()),
    )


def floor_version(database: Database, slug: str, date: dt.date) -> tuple[int, int]:
    """Number of the day's newest release, and how many of its ticks are kept.

    Raises
    ------
    NotFoundError
        Nothing is released for that day.
    """
    with database.reading() as unit:
        release = release_in(unit, slug, date)
        return release.number, unit.floor.count(release)


def release_in(unit: UnitOfWork, slug: str, date: dt.date) -> Release:
    """The newest release of a day; raise NotFoundError where there is none."""
    found = unit.floor.release(slug, date)
    if found is None:
        raise NotFoundError(
            Fault(
                "release",
                f"{slug} on {date}",
                _("no plan is released to the floor for that day"),
                _("Open a plan of that day and release it"),
            )
        )
    return found


def tick_of(plan: ReleasedPlan, stored: StoredTick) -> Tick:
    """A stored tick with its moment as the kitchen's wall clock showed it."""
    return Tick(
        key=stored.key,
        act=stored.act,
        at=plan.minutes(stored.at),
        cook=stored.cook,
        tasks=stored.tasks,
        reason=stored.reason,
        weight=stored.weight,
        takes_back=stored.takes_back,
    )
