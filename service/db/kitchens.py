"""Kitchens and the versions of their files, in and out of rows."""

import datetime as dt
import hashlib
import uuid
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from sqlmodel import Session, col, select

from service.db.tables import KitchenRow, KitchenVersionRow
from service.values import KitchenSummary


@dataclass(frozen=True, slots=True)
class StoredVersion:
    """A stored kitchen file with the keys a plan refers to."""

    kitchen_id: uuid.UUID
    version_id: uuid.UUID
    number: int
    document: bytes


@dataclass(frozen=True, slots=True)
class VersionNote:
    """That a version was stored: when (UTC), by whom."""

    number: int
    at: dt.datetime
    actor: str


class KitchenStore:
    """Reads and adds kitchens within one unit of work.

    Parameters
    ----------
    session
        The unit's session.
    """

    def __init__(self, session: Session) -> None:
        self._session = session

    def summaries(self) -> tuple[KitchenSummary, ...]:
        """All kitchens with their newest version, by name."""
        rows = self._session.exec(select(KitchenRow).order_by(col(KitchenRow.name)))
        return tuple(_summary(row, self._newest(row)) for row in rows)

    def summary(self, slug: str) -> KitchenSummary | None:
        """The kitchen with this slug, or None."""
        row = self._row(slug)
        return None if row is None else _summary(row, self._newest(row))

    def newest(self, slug: str) -> StoredVersion | None:
        """The newest file of the kitchen with this slug, or None."""
        row = self._row(slug)
        return None if row is None else _stored(self._newest(row))

    def with_text(self, slug: str, text: str) -> Iterator[StoredVersion]:
        """Versions of the kitchen whose file holds ``text``, the newest first."""
        query = (
            select(KitchenVersionRow)
            .join(KitchenRow, col(KitchenRow.id) == col(KitchenVersionRow.kitchen_id))
            .where(KitchenRow.slug == slug, col(KitchenVersionRow.document).contains(text))
            .order_by(col(KitchenVersionRow.number).desc())
        )
        return (_stored(row) for row in self._session.exec(query))

    def numbered(self, slug: str, number: int) -> StoredVersion | None:
        """The version of the kitchen with this number, or None."""
        found = self._session.exec(
            select(KitchenVersionRow)
            .join(KitchenRow, col(KitchenRow.id) == col(KitchenVersionRow.kitchen_id))
            .where(KitchenRow.slug == slug, KitchenVersionRow.number == number)
        ).one_or_none()
        return None if found is None else _stored(found)

    def stored_by(self, slug: str, actors: Sequence[str]) -> tuple[VersionNote, ...]:
        """When whoever of ``actors`` stored which version, the newest first."""
        rows = self._session.exec(
            select(KitchenVersionRow)
            .join(KitchenRow, col(KitchenRow.id) == col(KitchenVersionRow.kitchen_id))
            .where(KitchenRow.slug == slug, col(KitchenVersionRow.created_by).in_(actors))
            .order_by(col(KitchenVersionRow.number).desc())
        )
        return tuple(VersionNote(row.number, row.created_at, row.created_by) for row in rows)

    def version(self, version_id: uuid.UUID) -> StoredVersion:
        """The file with this key, which a plan row holds."""
        return _stored(self._session.get_one(KitchenVersionRow, version_id))

    def add(
        self, *, slug: str, name: str, document: bytes, actor: str, now: dt.datetime
    ) -> tuple[KitchenSummary, bool]:
        """Add a file as a new kitchen or its next version, unless it is the newest already.

        Returns
        -------
        tuple
            The kitchen, and whether a version was added.
        """
        digest = hashlib.sha256(document).hexdigest()
        row = self._row(slug)
        if row is None:
            row = KitchenRow(slug=slug, name=name, created_by=actor, created_at=now)
            number = 1
        else:
            newest = self._newest(row)
            if newest.sha256 == digest:
                return _summary(row, newest), False
            row.name = name
            number = newest.number + 1
        version = KitchenVersionRow(
            kitchen_id=row.id,
            number=number,
            document=document.decode(),
            sha256=digest,
            created_by=actor,
            created_at=now,
        )
        self._session.add(row)
        self._session.flush()
        self._session.add(version)
        return _summary(row, version), True

    def _row(self, slug: str) -> KitchenRow | None:
        return self._session.exec(select(KitchenRow).where(KitchenRow.slug == slug)).one_or_none()

    def _newest(self, row: KitchenRow) -> KitchenVersionRow:
        return self._session.exec(
            select(KitchenVersionRow)
            .where(KitchenVersionRow.kitchen_id == row.id)
            .order_by(col(KitchenVersionRow.number).desc())
            .limit(1)
        ).one()


def _summary(row: KitchenRow, version: KitchenVersionRow) -> KitchenSummary:
    return KitchenSummary(
        slug=row.slug,
        name=row.name,
        version=version.number,
        sha256=version.sha256,
        created_at=version.created_at,
        created_by=version.created_by,
    )


def _stored(row: KitchenVersionRow) -> StoredVersion:
    return StoredVersion(
        kitchen_id=row.kitchen_id,
        version_id=row.id,
        number=row.number,
        document=row.document.encode(),
    )
