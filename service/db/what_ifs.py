"""What-ifs of plans, in and out of rows."""

import datetime as dt
import uuid
from dataclasses import asdict, dataclass

from sqlmodel import Session, col, select, update

from planner.whatif.compare import Comparison
from service.db.tables import PlanRow, WhatIfRow
from service.documents import comparison_text, read_comparison
from service.values import WhatIfState
from web.chef.compare_view import Otherwise

_OPEN = (WhatIfState.QUEUED.value, WhatIfState.RUNNING.value)


@dataclass(frozen=True, slots=True)
class Asked:
    """A what-if that was asked for.

    Attributes
    ----------
    change, value
        What was asked, to be asked again.
    otherwise
        The same, with the names and counts it is told by.
    at
        When it was asked for last, UTC.
    found
        What came of it, once it is done.
    error
        Why there is nothing, where it was refused or failed.
    """

    id: uuid.UUID
    plan_id: uuid.UUID
    change: str
    value: str
    otherwise: Otherwise
    state: WhatIfState
    at: dt.datetime
    found: Comparison | None = None
    error: str = ""


class WhatIfStore:
    """Reads and writes what-ifs within one unit of work.

    One that was thrown away meanwhile is nowhere to write to: what comes of it is dropped.

    Parameters
    ----------
    session
        The unit's session.
    """

    def __init__(self, session: Session) -> None:
        self._session = session

    def of(self, plan_id: uuid.UUID) -> tuple[Asked, ...]:
        """What was asked of a plan, in the order it was asked."""
        rows = self._session.exec(
            select(WhatIfRow)
            .where(WhatIfRow.plan_id == plan_id)
            .order_by(col(WhatIfRow.created_at), col(WhatIfRow.id))
        )
        return tuple(_asked(row) for row in rows)

    def of_day(self, plan_id: uuid.UUID) -> tuple[Asked, ...]:
        """What was asked of all plans of the plan's day, in the order it was asked."""
        plan = self._session.get_one(PlanRow, plan_id)
        rows = self._session.exec(
            select(WhatIfRow)
            .join(PlanRow, col(PlanRow.id) == col(WhatIfRow.plan_id))
            .where(PlanRow.kitchen_id == plan.kitchen_id, PlanRow.date == plan.date)
            .order_by(col(WhatIfRow.created_at), col(WhatIfRow.id))
        )
        return tuple(_asked(row) for row in rows)

    def add(
        self,
        plan_id: uuid.UUID,
        change: str,
        value: str,
        otherwise: Otherwise,
        *,
        actor: str,
        now: dt.datetime,
    ) -> uuid.UUID:
        """Add a what-if that waits, and return its id."""
        row = WhatIfRow(
            kitchen_id=self._session.get_one(PlanRow, plan_id).kitchen_id,
            plan_id=plan_id,
            change=change,
            value=value,
            otherwise=asdict(otherwise),
            state=WhatIfState.QUEUED.value,
            error="",
            created_by=actor,
            created_at=now,
        )
        self._session.add(row)
        self._session.flush()
        return row.id

    def again(self, what_if: uuid.UUID, *, actor: str, now: dt.datetime) -> None:
        """Let one wait that came to nothing, as if it were asked for now."""
        row = self._session.get_one(WhatIfRow, what_if)
        row.state = WhatIfState.QUEUED.value
        row.error = ""
        row.created_by = actor
        row.created_at = now

    def start(self, what_if: uuid.UUID) -> bool:
        """Mark one as being planned; False where it was thrown away."""
        row = self._session.get(WhatIfRow, what_if)
        if row is not None:
            row.state = WhatIfState.RUNNING.value
        return row is not None

    def keep(self, what_if: uuid.UUID, found: Comparison) -> None:
        """Keep what came of one."""
        row = self._session.get(WhatIfRow, what_if)
        if row is not None:
            row.state = WhatIfState.DONE.value
            row.result = comparison_text(found)

    def end(self, what_if: uuid.UUID, state: WhatIfState, error: str = "") -> None:
        """Mark one as come to nothing."""
        row = self._session.get(WhatIfRow, what_if)
        if row is not None:
            row.state = state.value
            row.error = error

    def remove(self, what_if: uuid.UUID) -> None:
        """Throw one away, whatever came of it."""
        row = self._session.get(WhatIfRow, what_if)
        if row is not None:
            self._session.delete(row)
            self._session.flush()

    def cut_off(self) -> None:
        """Mark all that wait or are being planned as cut off."""
        self._session.exec(
            update(WhatIfRow)
            .where(col(WhatIfRow.state).in_(_OPEN))
            .values(state=WhatIfState.CUT_OFF.value)
        )


def _asked(row: WhatIfRow) -> Asked:
    return Asked(
        id=row.id,
        plan_id=row.plan_id,
        change=row.change,
        value=row.value,
        otherwise=Otherwise(**row.otherwise),
        state=WhatIfState(row.state),
        at=row.created_at,
        found=None if row.result is None else read_comparison(row.result),
        error=row.error,
    )
