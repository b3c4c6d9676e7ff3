"""Releases and ticks of many days at once, out of rows, with few queries."""

import datetime as dt
import uuid
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sqlalchemy import func
from sqlmodel import Session, col, select

from planner.floor.ticks import Act
from service.db.floor import StoredTick
from service.db.tables import (
    KitchenRow,
    KitchenVersionRow,
    PlanResultRow,
    PlanRow,
    ReleaseRow,
    TickRow,
)


@dataclass(frozen=True, slots=True)
class ReleasedDay:
    """A day's newest release with those before it whose work it goes on with.

    Attributes
    ----------
    plan_id, first_plan_id
        Of the newest release, and of the one that its chain begins with.
    releases
        Keys of the chain.
    version
        How many ticks of the chain are kept: none is ever changed or taken out.
    """

    date: dt.date
    number: int
    plan_id: uuid.UUID
    first_plan_id: uuid.UUID
    releases: tuple[uuid.UUID, ...]
    version: int


@dataclass(frozen=True, slots=True)
class StoredPlan:
    """What a plan's sheet says, as text, and the kitchen file it was made from."""

    sheet: str
    version_id: uuid.UUID


class HistoryStore:
    """Reads days that were worked within one unit of work.

    Parameters
    ----------
    session
        The unit's session.
    """

    def __init__(self, session: Session) -> None:
        self._session = session

    def days(self, slug: str, first: dt.date, last: dt.date) -> tuple[ReleasedDay, ...]:
        """Days with a release, from ``first`` to ``last``, in order. Two queries."""
        rows = self._session.exec(
            select(ReleaseRow)
            .join(KitchenRow, col(KitchenRow.id) == col(ReleaseRow.kitchen_id))
            .where(KitchenRow.slug == slug, ReleaseRow.date >= first, ReleaseRow.date <= last)
            .order_by(col(ReleaseRow.date), col(ReleaseRow.number))
        ).all()
        by_day: dict[dt.date, dict[int, ReleaseRow]] = defaultdict(dict)
        for row in rows:
            by_day[row.date][row.number] = row
        chains = {date: _chain(releases) for date, releases in by_day.items()}
        counts = self._counts([row.id for chain in chains.values() for row in chain])
        return tuple(
            ReleasedDay(
                date=date,
                number=chain[0].number,
                plan_id=chain[0].plan_id,
                first_plan_id=chain[-1].plan_id,
                releases=tuple(row.id for row in chain),
                version=sum(counts.get(row.id, 0) for row in chain),
            )
            for date, chain in chains.items()
        )

    def span(self, slug: str) -> tuple[dt.date, dt.date] | None:
        """The first and the last day with a release, or None."""
        first, last = self._session.exec(
            select(func.min(ReleaseRow.date), func.max(ReleaseRow.date))
            .join(KitchenRow, col(KitchenRow.id) == col(ReleaseRow.kitchen_id))
            .where(KitchenRow.slug == slug)
        ).one()
        return None if first is None or last is None else (first, last)

    def plans(self, plan_ids: Sequence[uuid.UUID]) -> Mapping[uuid.UUID, StoredPlan]:
        """Sheets of plans by their keys."""
        rows = self._session.exec(
            select(PlanRow.id, PlanResultRow.sheet, PlanRow.kitchen_version_id)
            .join(PlanResultRow, col(PlanResultRow.plan_id) == col(PlanRow.id))
            .where(col(PlanRow.id).in_(plan_ids))
        )
        return {plan_id: StoredPlan(sheet, version) for plan_id, sheet, version in rows}

    def documents(self, version_ids: Sequence[uuid.UUID]) -> Mapping[uuid.UUID, str]:
        """Kitchen files by the keys of their versions."""
        rows = self._session.exec(
            select(KitchenVersionRow.id, KitchenVersionRow.document).where(
                col(KitchenVersionRow.id).in_(version_ids)
            )
        )
        return dict(rows.all())

    def ticks(self, releases: Sequence[uuid.UUID]) -> Mapping[uuid.UUID, Sequence[StoredTick]]:
        """Ticks of each release, as they came, without weights: no minutes hang on them."""
        rows = self._session.exec(
            select(  # type: ignore[call-overload]
                TickRow.release_id,
                TickRow.key,
                TickRow.act,
                TickRow.at,
                TickRow.device_at,
                TickRow.device,
                TickRow.cook,
                TickRow.tasks,
                TickRow.reason,
                TickRow.takes_back,
            )
            .where(col(TickRow.release_id).in_(releases), TickRow.act != Act.WEIGHED.value)
            .order_by(col(TickRow.created_at))
        )
        found: dict[uuid.UUID, list[StoredTick]] = defaultdict(list)
        for release, key, act, at, device_at, device, cook, tasks, reason, takes_back in rows:
            found[release].append(
                StoredTick(
                    key=key,
                    act=Act(act),
                    at=at,
                    device_at=device_at,
                    device=device,
                    cook=cook,
                    tasks=tuple(tasks),
                    reason=reason,
                    weight=None,
                    takes_back=takes_back,
                )
            )
        return found

    def _counts(self, releases: Sequence[uuid.UUID]) -> Mapping[uuid.UUID, int]:
        rows = self._session.exec(
            select(TickRow.release_id, func.count())
            .where(col(TickRow.release_id).in_(releases))
            .group_by(col(TickRow.release_id))
        )
        return dict(rows.all())


def _chain(releases: Mapping[int, ReleaseRow]) -> list[ReleaseRow]:
    """The newest release of a day, then those before it whose work it goes on with."""
    found = [releases[max(releases)]]
    while (before := found[-1].follows) is not None and before in releases:
        found.append(releases[before])
    return found
