"""Planning runs and what they made, out of rows."""

import datetime as dt
import uuid
from typing import Any

from sqlmodel import Session, col, select
from sqlmodel.sql.expression import Select

from service.db.tables import (
    KitchenRow,
    KitchenVersionRow,
    PlanProgressRow,
    PlanResultRow,
    PlanRow,
)
from service.values import PlanChoices, PlanStatus, PlanSummary, PlanTexts, ProgressStep


class PlanStore:
    """Reads planning runs within one unit of work.

    Parameters
    ----------
    session
        The unit's session.
    """

    def __init__(self, session: Session) -> None:
        self._session = session

    def summaries(self, *, limit: int, with_sheet: bool = False) -> tuple[PlanSummary, ...]:
        """The newest runs first, by the time they were asked for."""
        query = _lines().order_by(col(PlanRow.created_at).desc(), col(PlanRow.id))
        if with_sheet:
            query = query.where(col(PlanResultRow.plan_id).is_not(None))
        lines = self._session.exec(query.limit(limit))
        return tuple(PlanSummary.model_validate(_fields(*line)) for line in lines)

    def of_day(self, slug: str, date: dt.date) -> tuple[PlanSummary, ...]:
        """All runs of a kitchen's day, the newest first."""
        query = (
            _lines()
            .where(KitchenRow.slug == slug, PlanRow.date == date)
            .order_by(col(PlanRow.created_at).desc(), col(PlanRow.id))
        )
        return tuple(
            PlanSummary.model_validate(_fields(*line)) for line in self._session.exec(query)
        )

    def status(self, plan_id: uuid.UUID) -> PlanStatus | None:
        """One run with its progress, or None."""
        line = self._session.exec(_lines().where(col(PlanRow.id) == plan_id)).first()
        if line is None:
            return None
        steps = self._session.exec(
            select(PlanProgressRow)
            .where(PlanProgressRow.plan_id == plan_id)
            .order_by(col(PlanProgressRow.number))
        )
        progress = tuple(
            ProgressStep.model_validate(step.model_dump(include=set(ProgressStep.model_fields)))
            for step in steps
        )
        return PlanStatus.model_validate({**_fields(*line), "progress": progress})

    def inputs(self, plan_id: uuid.UUID) -> tuple[uuid.UUID, dt.date, PlanChoices]:
        """Key of the kitchen version, date and choices of a run that is known to exist."""
        row = self._session.get_one(PlanRow, plan_id)
        return row.kitchen_version_id, row.date, PlanChoices.model_validate(row.choices)

    def texts(self, plan_id: uuid.UUID) -> PlanTexts | None:
        """What a run has made so far, or None."""
        row = self._session.get(PlanResultRow, plan_id)
        if row is None:
            return None
        return PlanTexts(row.document, row.sheet, row.traces, row.course, tuple(row.told or ()))

    def kitchen_of(self, plan_id: uuid.UUID) -> str:
        """Slug of the kitchen of a run that is known to exist."""
        row = self._session.get_one(PlanRow, plan_id)
        return self._session.get_one(KitchenRow, row.kitchen_id).slug

    def news(self, plan_id: uuid.UUID) -> tuple[int, list[dict[str, Any]]] | None:
        """Release a run goes on from, and what has happened since; None: a day from its start."""
        row = self._session.get_one(PlanRow, plan_id)
        return None if row.after_release is None else (row.after_release, row.news or [])

    def moves(self, plan_id: uuid.UUID) -> tuple[uuid.UUID, list[dict[str, Any]]] | None:
        """Plan whose batches a run moves, and what is held in it; None: it moves none."""
        row = self._session.get_one(PlanRow, plan_id)
        return None if row.moved_from is None else (row.moved_from, row.pins or [])


def _lines() -> Select[PlanRow, KitchenRow, int, uuid.UUID]:
    """Select runs with their kitchen, the number of its version, and the result's key if any."""
    return (
        select(PlanRow, KitchenRow, col(KitchenVersionRow.number), col(PlanResultRow.plan_id))
        .join(KitchenRow, col(KitchenRow.id) == col(PlanRow.kitchen_id))
        .join(KitchenVersionRow, col(KitchenVersionRow.id) == col(PlanRow.kitchen_version_id))
        .outerjoin(PlanResultRow, col(PlanResultRow.plan_id) == col(PlanRow.id))
    )


def _fields(
    row: PlanRow, kitchen: KitchenRow, number: int, result: uuid.UUID | None
) -> dict[str, Any]:
    return {
        "id": row.id,
        "kitchen": kitchen.slug,
        "kitchen_name": kitchen.name,
        "kitchen_version": number,
        "date": row.date,
        "state": row.state,
        "has_sheet": result is not None,
        "choices": row.choices,
        "error": row.error,
        "note": row.note,
        "after_release": row.after_release,
        "moved_from": row.moved_from,
        "created_at": row.created_at,
        "created_by": row.created_by,
        "started_at": row.started_at,
        "finished_at": row.finished_at,
    }
