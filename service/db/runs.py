"""Planning runs as they go on, into rows."""

import datetime as dt
import uuid
from typing import Any

from sqlalchemy import func
from sqlmodel import Session, col, select

from planner.schedule.timetable import Progress
from service.db.kitchens import StoredVersion
from service.db.tables import PlanProgressRow, PlanResultRow, PlanRow
from service.values import PlanChoices, PlanState, PlanTexts

_OPEN = (PlanState.QUEUED.value, PlanState.RUNNING.value)


class RunStore:
    """Writes planning runs within one unit of work.

    Parameters
    ----------
    session
        The unit's session.
    """

    def __init__(self, session: Session) -> None:
        self._session = session

    def add(
        self,
        version: StoredVersion,
        date: dt.date,
        choices: PlanChoices,
        *,
        actor: str,
        now: dt.datetime,
        after_release: int | None = None,
        news: list[dict[str, Any]] | None = None,
        moved_from: uuid.UUID | None = None,
        pins: list[dict[str, Any]] | None = None,
    ) -> uuid.UUID:
        """Add a queued run and return its id.

        With ``after_release`` it goes on from where that release's floor stands, after ``news``.
        With ``moved_from`` it is that plan with ``pins``.
        """
        row = PlanRow(
            kitchen_id=version.kitchen_id,
            kitchen_version_id=version.version_id,
            date=date,
            state=PlanState.QUEUED.value,
            choices=choices.model_dump(),
            after_release=after_release,
            news=news,
            moved_from=moved_from,
            pins=pins,
            beat_at=now,
            created_by=actor,
            created_at=now,
        )
        self._session.add(row)
        self._session.flush()
        return row.id

    def start(self, plan_id: uuid.UUID, now: dt.datetime) -> None:
        """Mark a run as running."""
        row = self._session.get_one(PlanRow, plan_id)
        row.state = PlanState.RUNNING.value
        row.started_at = now
        row.beat_at = now

    def step(self, plan_id: uuid.UUID, progress: Progress, now: dt.datetime) -> None:
        """Add an improving plan to a run's progress."""
        row = self._session.get_one(PlanRow, plan_id)
        row.beat_at = now
        taken = self._session.exec(
            select(func.count()).where(col(PlanProgressRow.plan_id) == plan_id)
        ).one()
        score = progress.score
        self._session.add(
            PlanProgressRow(
                kitchen_id=row.kitchen_id,
                plan_id=plan_id,
                number=taken + 1,
                seconds=progress.seconds,
                origin=progress.origin,
                short=score.short,
                tardiness=score.tardiness,
                labor=score.labor,
                freshness=score.freshness,
                finish=score.finish,
                least_labor=progress.least_labor,
                created_by=row.created_by,
                created_at=now,
            )
        )

    def keep(self, plan_id: uuid.UUID, texts: PlanTexts, now: dt.datetime) -> None:
        """Keep what a run made, in place of what it made before."""
        row = self._session.get_one(PlanRow, plan_id)
        self._session.merge(
            PlanResultRow(
                plan_id=plan_id,
                kitchen_id=row.kitchen_id,
                document=texts.document,
                sheet=texts.sheet,
                traces=texts.traces,
                course=texts.course,
                told=list(texts.told),
                created_by=row.created_by,
                created_at=now,
            )
        )

    def end(
        self, plan_id: uuid.UUID, now: dt.datetime, *, error: str | None, note: str | None
    ) -> None:
        """Mark a run as done, or as failed where there is an ``error``."""
        row = self._session.get_one(PlanRow, plan_id)
        row.state = (PlanState.DONE if error is None else PlanState.FAILED).value
        row.error = error
        row.note = note
        row.finished_at = now

    def beat(self, plan_ids: tuple[uuid.UUID, ...], now: dt.datetime) -> None:
        """Note that the program which runs these lives."""
        for row in self._session.exec(select(PlanRow).where(col(PlanRow.id).in_(plan_ids))):
            row.beat_at = now

    def silent_since(self, moment: dt.datetime) -> tuple[uuid.UUID, ...]:
        """Unfinished runs of which nothing was heard since ``moment``."""
        query = select(PlanRow.id).where(
            col(PlanRow.state).in_(_OPEN), col(PlanRow.beat_at) < moment
        )
        return tuple(self._session.exec(query))
