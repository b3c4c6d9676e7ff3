"""The sales history, in and out of rows."""

import datetime as dt
import uuid
from collections import defaultdict
from collections.abc import Mapping, Sequence

from sqlalchemy import func, insert
from sqlalchemy import select as select_columns
from sqlmodel import Session, col, select

from planner.forecast.keeping import Key
from service.db.tables import SalesEntryRow, SalesLineRow
from service.sales_values import KeptSales, SalesChange, SalesEntry, SalesWay

_KEY = (col(SalesLineRow.date), col(SalesLineRow.service), col(SalesLineRow.dish))


class SalesStore:
    """Reads and adds what a kitchen sold within one unit of work.

    Parameters
    ----------
    session
        The unit's session.
    """

    def __init__(self, session: Session) -> None:
        self._session = session

    def version(self, kitchen_id: uuid.UUID) -> int:
        """Number of the newest entry; 0 where there is none."""
        found = self._session.exec(
            select(func.max(SalesEntryRow.number)).where(SalesEntryRow.kitchen_id == kitchen_id)
        ).one()
        return found or 0

    def kept(self, kitchen_id: uuid.UUID) -> KeptSales:
        """What holds: of each day, service and dish the newest count."""
        counts: dict[Key, int | None] = {}
        # Columns rather than rows: there are ten thousand in a year.
        for date, service, dish, count in self._session.execute(
            select_columns(*_KEY, col(SalesLineRow.count))
            .where(col(SalesLineRow.kitchen_id) == kitchen_id)
            .order_by(col(SalesLineRow.number))
        ):
            counts[date, service, dish] = count
        return KeptSales(
            kitchen_id,
            self.version(kitchen_id),
            {key: count for key, count in counts.items() if count is not None},
        )

    def changes(
        self, kitchen_id: uuid.UUID, number: int
    ) -> tuple[tuple[SalesChange, int | None], ...]:
        """Counts of an entry, each with what stood before it."""
        rows = self._session.exec(
            select(SalesLineRow).where(
                SalesLineRow.kitchen_id == kitchen_id, SalesLineRow.number == number
            )
        )
        return tuple(
            (SalesChange(row.date, row.service, row.dish, row.count), row.before) for row in rows
        )

    def later(self, kitchen_id: uuid.UUID, number: int) -> Mapping[Key, int]:
        """Newest entry after ``number`` by what it is a count of."""
        found: defaultdict[Key, int] = defaultdict(int)
        for date, service, dish, newer in self._session.execute(
            select_columns(*_KEY, col(SalesLineRow.number)).where(
                col(SalesLineRow.kitchen_id) == kitchen_id, col(SalesLineRow.number) > number
            )
        ):
            found[date, service, dish] = max(found[date, service, dish], newer)
        return dict(found)

    def entries(self, kitchen_id: uuid.UUID) -> tuple[SalesEntry, ...]:
        """All entries, the newest first."""
        about = {
            number: (first, last, added, lines)
            for number, first, last, added, lines in self._session.execute(
                select_columns(
                    col(SalesLineRow.number),
                    func.min(col(SalesLineRow.date)),
                    func.max(col(SalesLineRow.date)),
                    func.count().filter(col(SalesLineRow.before).is_(None)),
                    func.count(),
                )
                .where(col(SalesLineRow.kitchen_id) == kitchen_id)
                .group_by(col(SalesLineRow.number))
            )
        }
        rows = self._session.exec(
            select(SalesEntryRow)
            .where(SalesEntryRow.kitchen_id == kitchen_id)
            .order_by(col(SalesEntryRow.number).desc())
        )
        return tuple(_entry(row, *about[row.number]) for row in rows)

    def add(
        self,
        kitchen_id: uuid.UUID,
        way: SalesWay,
        changes: Sequence[tuple[SalesChange, int | None]],
        *,
        source: str = "",
        answers: Mapping[tuple[str, str], str] | None = None,
        puts_back: int | None = None,
        actor: str,
        now: dt.datetime,
    ) -> int:
        """Keep counts, of which there is one at least, each with what stood before; its number."""
        number = self.version(kitchen_id) + 1
        self._session.add(
            SalesEntryRow(
                kitchen_id=kitchen_id,
                number=number,
                way=way.value,
                source=source,
                answers=[[*key, name] for key, name in (answers or {}).items()],
                puts_back=puts_back,
                created_by=actor,
                created_at=now,
            )
        )
        self._session.flush()
        self._session.execute(
            insert(SalesLineRow),
            [
                {
                    "kitchen_id": kitchen_id,
                    "number": number,
                    "date": change.date,
                    "service": change.service,
                    "dish": change.dish,
                    "count": change.count,
                    "before": before,
                }
                for change, before in changes
            ],
        )
        return number


def _entry(row: SalesEntryRow, first: dt.date, last: dt.date, added: int, lines: int) -> SalesEntry:
    return SalesEntry(
        number=row.number,
        way=SalesWay(row.way),
        source=row.source,
        added=added,
        changed=lines - added,
        first=first,
        last=last,
        puts_back=row.puts_back,
        answers={(field, value): name for field, value, name in row.answers},
        at=row.created_at,
        actor=row.created_by,
    )
