"""Ask for plans and read what came of them."""

import datetime as dt
import uuid
from collections.abc import Mapping
from typing import Protocol

from babel.lists import format_list

from planner.quantities.types import Trace
from planner.why import close_matches
from service.clock import Now, today_in
from service.db.unit_of_work import Database, UnitOfWork
from service.documents import kept_kitchen
from service.errors import (
    ConflictError,
    Fault,
    NotFoundError,
    NothingMadeError,
    NotReadyError,
    RequestError,
)
from service.usecases.kitchens import no_such_kitchen
from service.values import PlanChoices, PlanState, PlanStatus, PlanSummary, PlanTexts
from web.language import _, language, pgettext
from web.sentences import said


class PlanQueue(Protocol):
    """Takes runs that are asked for, and sees to it that they are done."""

    def submit(self, plan_id: uuid.UUID) -> None:
        """Take a stored, queued run."""

    def enough(self, plan_id: uuid.UUID) -> bool:
        """End a run with the best plan it has; False where nobody here does it."""

    def stopping(self, plan_id: uuid.UUID) -> bool:
        """Whether a run that is not over yet was asked to end."""


def request_plan(
    database: Database,
    slug: str,
    date: dt.date | None,
    choices: PlanChoices,
    *,
    actor: str,
    now: Now,
) -> PlanStatus:
    """Store a run of the newest version of a kitchen, to be done by whoever takes it.

    Parameters
    ----------
    database
        Where it is kept.
    slug
        The kitchen.
    date
        The day to plan; default: today in the kitchen's time zone.
    choices
        How to search.
    actor
        Who asks.
    now
        The clock.

    Raises
    ------
    NotFoundError
        There is no such kitchen.
    """
    with database.writing() as unit:
        version = unit.kitchens.newest(slug)
        if version is None:
            raise no_such_kitchen(slug)
        day = date or today_in(kept_kitchen(version.document).time_zone, now)
        plan_id = unit.runs.add(version, day, choices, actor=actor, now=now())
        unit.commit()
    return plan_status(database, plan_id)


def plan_status(database: Database, plan_id: uuid.UUID) -> PlanStatus:
    """Where a run stands.

    Raises
    ------
    NotFoundError
        There is no such run.
    """
    with database.reading() as unit:
        return _status(unit, plan_id)


def stop_plan(database: Database, queue: PlanQueue, plan_id: uuid.UUID) -> None:
    """End a run's search with the best plan it has. One that has ended stays as it is.

    Raises
    ------
    NotFoundError
        There is no such run.
    ConflictError
        It is done by another program.
    """
    if queue.enough(plan_id):
        return
    status = plan_status(database, plan_id)
    if not status.state.ended:
        raise ConflictError(
            Fault(
                "plan",
                str(plan_id),
                _("another program is planning it"),
                _("Stop it there, or wait until it is done"),
            )
        )


def list_plans(
    database: Database, *, limit: int, with_sheet: bool = False
) -> tuple[PlanSummary, ...]:
    """The newest runs, newest first; only those with a sheet where ``with_sheet`` holds."""
    with database.reading() as unit:
        return unit.plans.summaries(limit=limit, with_sheet=with_sheet)


def plan_texts(database: Database, plan_id: uuid.UUID) -> PlanTexts:
    """What a run has made so far.

    Raises
    ------
    NotFoundError
        There is no such run.
    NotReadyError, NothingMadeError
        It has made nothing yet, or has failed.
    """
    with database.reading() as unit:
        status = _status(unit, plan_id)
        texts = unit.plans.texts(plan_id)
    if texts is None:
        raise _nothing_made(status)
    return texts


def trace_of(traces: Mapping[str, Trace], item: str) -> Trace:
    """Why the quantity of an ingredient or component is what it is, among those of its plan.

    Raises
    ------
    NotFoundError
        The plan explains no such item.
    """
    if item in traces:
        return traces[item]
    close = close_matches(item, {known: known.replace("_", " ") for known in traces})
    if close:
        known = format_list(close, style="or", locale=language())
        remedy = _("Did you mean %(known)s?", known=known)
    elif traces:
        remedy = _("Use one of: %(known)s", known=", ".join(sorted(traces)))
    else:
        remedy = _("It explains nothing; plan the day anew for a plan that does")
    raise NotFoundError(
        Fault("item", item, _("nothing of it is pulled or made in this plan"), remedy)
    )


def _status(unit: UnitOfWork, plan_id: uuid.UUID) -> PlanStatus:
    status = unit.plans.status(plan_id)
    if status is None:
        raise NotFoundError(
            Fault(
                "plan",
                str(plan_id),
                _("there is no such plan"),
                _("See /api/v1/plans for those made"),
            )
        )
    return status


def _nothing_made(status: PlanStatus) -> RequestError:
    plan_id = str(status.id)
    if status.state.ended:
        return NothingMadeError(
            Fault(
                "plan",
                plan_id,
                _("it failed: %(error)s", error=said(status.error or "")),
                _("Mend what the error names and ask for a new plan"),
            )
        )
    return NotReadyError(
        Fault(
            "plan",
            plan_id,
            _("it is queued and has made nothing yet")
            if status.state is PlanState.QUEUED
            else _("it is running and has made nothing yet"),
            _("Look again at %(address)s in a few seconds", address=f"/api/v1/plans/{plan_id}"),
        )
    )


def plan_state(state: PlanState) -> str:
    """A state in words, within a sentence."""
    match state:
        case PlanState.QUEUED:
            return pgettext("state", "queued")
        case PlanState.RUNNING:
            return pgettext("state", "running")
        case PlanState.FAILED:
            return pgettext("state", "failed")
        case PlanState.DONE:
            return pgettext("state", "done")
