"""Releases and ticks, in and out of rows."""

import datetime as dt
import uuid
from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import func
from sqlmodel import Session, col, select

from planner.floor.ticks import Act, Weighed, Weight
from service.db.tables import KitchenRow, PlanRow, ReleaseRow, TickRow
from service.floor_values import Release

_AT_ONCE = 500
"""Rows that one query names: databases have a limit."""


@dataclass(frozen=True, slots=True)
class StoredTick:
    """A tick with its moments still in UTC."""

    key: str
    act: Act
    at: dt.datetime
    device_at: dt.datetime
    device: str
    cook: str
    tasks: tuple[str, ...]
    reason: str
    weight: Weight | None
    takes_back: str

    def says_the_same(self, other: "StoredTick") -> bool:
        """Whether both are one tick, sent twice: the clock of the device may have been set."""
        mine, theirs = (
            (t.key, t.act, t.cook, t.tasks, t.reason, t.weight, t.takes_back) for t in (self, other)
        )
        return mine == theirs


class FloorStore:
    """Reads and adds releases and ticks within one unit of work.

    Parameters
    ----------
    session
        The unit's session.
    """

    def __init__(self, session: Session) -> None:
        self._session = session

    def release(self, slug: str, date: dt.date, number: int | None = None) -> Release | None:
        """A release of a day, the newest where no ``number`` is given; None where there is none."""
        query = (
            select(ReleaseRow, KitchenRow.slug)
            .join(KitchenRow, col(KitchenRow.id) == col(ReleaseRow.kitchen_id))
            .where(KitchenRow.slug == slug, ReleaseRow.date == date)
            .order_by(col(ReleaseRow.number).desc())
            .limit(1)
        )
        if number is not None:
            query = query.where(ReleaseRow.number == number)
        found = self._session.exec(query).first()
        return None if found is None else _release(*found)

    def add_release(
        self, plan_id: uuid.UUID, *, actor: str, now: dt.datetime, follows: int | None = None
    ) -> Release:
        """Release a plan that is known to exist, as its day's next.

        ``follows`` is the number of the release whose work it goes on with.
        """
        plan = self._session.get_one(PlanRow, plan_id)
        slug = self._session.get_one(KitchenRow, plan.kitchen_id).slug
        newest = self.release(slug, plan.date)
        row = ReleaseRow(
            kitchen_id=plan.kitchen_id,
            date=plan.date,
            number=1 if newest is None else newest.number + 1,
            plan_id=plan_id,
            follows=follows,
            created_by=actor,
            created_at=now,
        )
        self._session.add(row)
        self._session.flush()
        return _release(row, slug)

    def count(self, release: Release) -> int:
        """How many ticks are kept of a release and of those whose work it goes on with."""
        return self._session.exec(
            select(func.count())
            .select_from(TickRow)
            .where(col(TickRow.release_id).in_(self._chain(release)))
        ).one()

    def ticks(self, release: Release) -> tuple[StoredTick, ...]:
        """All ticks of a release and of those whose work it goes on with, as they came."""
        ids = self.tick_ids(release)
        found = self.ticks_of(ids)
        return tuple(found[one] for one in ids)

    def tick_ids(self, release: Release) -> tuple[uuid.UUID, ...]:
        """Keys of their rows, as they came: a row is never changed nor taken out."""
        return tuple(
            self._session.exec(
                select(TickRow.id)
                .where(col(TickRow.release_id).in_(self._chain(release)))
                .order_by(col(TickRow.created_at))
            )
        )

    def ticks_of(self, ids: Sequence[uuid.UUID]) -> dict[uuid.UUID, StoredTick]:
        """Ticks by the keys of their rows."""
        found: dict[uuid.UUID, StoredTick] = {}
        for start in range(0, len(ids), _AT_ONCE):
            rows = self._session.exec(
                select(TickRow).where(col(TickRow.id).in_(ids[start : start + _AT_ONCE]))
            )
            found |= {row.id: _stored(row) for row in rows}
        return found

    def _chain(self, release: Release) -> list[uuid.UUID]:
        """Keys of a release and of those before it whose work it goes on with."""
        found = [release.id]
        before = release.follows
        while before is not None:
            one = self.release(release.kitchen, release.date, before)
            if one is None:
                break
            found.append(one.id)
            before = one.follows
        return found

    def tick(self, release: Release, key: str) -> StoredTick | None:
        """The tick with this key, of a release or those it goes on from, or None."""
        row = self._session.exec(
            select(TickRow).where(
                col(TickRow.release_id).in_(self._chain(release)), TickRow.key == key
            )
        ).first()
        return None if row is None else _stored(row)

    def add_tick(self, release: Release, tick: StoredTick, *, actor: str, now: dt.datetime) -> None:
        """Keep a tick."""
        weight = tick.weight
        self._session.add(
            TickRow(
                kitchen_id=release.kitchen_id,
                release_id=release.id,
                key=tick.key,
                act=tick.act.value,
                at=tick.at,
                device_at=tick.device_at,
                device=tick.device,
                cook=tick.cook,
                tasks=list(tick.tasks),
                reason=tick.reason,
                weight=None
                if weight is None
                else {
                    "kind": weight.kind.value,
                    "grams": weight.grams,
                    "tare_grams": weight.tare_grams,
                    "item": weight.item,
                },
                takes_back=tick.takes_back,
                created_by=actor,
                created_at=now,
            )
        )
        self._session.flush()


def _release(row: ReleaseRow, slug: str) -> Release:
    return Release(
        id=row.id,
        kitchen_id=row.kitchen_id,
        kitchen=slug,
        date=row.date,
        number=row.number,
        plan_id=row.plan_id,
        created_at=row.created_at,
        follows=row.follows,
    )


def _stored(row: TickRow) -> StoredTick:
    weight = row.weight
    return StoredTick(
        key=row.key,
        act=Act(row.act),
        at=row.at,
        device_at=row.device_at,
        device=row.device,
        cook=row.cook,
        tasks=tuple(row.tasks),
        reason=row.reason,
        weight=None
        if weight is None
        else Weight(Weighed(weight["kind"]), weight["grams"], weight["tare_grams"], weight["item"]),
        takes_back=row.takes_back,
    )
