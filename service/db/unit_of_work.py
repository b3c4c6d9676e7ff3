"""A unit of work: everything in it is stored, or nothing."""

from types import TracebackType
from typing import Self

from sqlalchemy import Engine
from sqlmodel import Session

from service.db.engine import WRITING
from service.db.floor import FloorStore
from service.db.history import HistoryStore
from service.db.kitchens import KitchenStore
from service.db.plans import PlanStore
from service.db.runs import RunStore
from service.db.sales import SalesStore
from service.db.what_ifs import WhatIfStore
from service.db.yields import YieldStore


class UnitOfWork:
    """One transaction, rolled back unless ``commit`` is called.

    Parameters
    ----------
    engine
        Where the tables are.
    writing
        Whether it may write: SQLite then waits for its turn at the start.
    """

    def __init__(self, engine: Engine, *, writing: bool) -> None:
        self._engine = engine.execution_options(**{WRITING: writing})

    def __enter__(self) -> Self:
        self._session = Session(self._engine, expire_on_commit=False)
        self.kitchens = KitchenStore(self._session)
        self.plans = PlanStore(self._session)
        self.floor = FloorStore(self._session)
        self.history = HistoryStore(self._session)
        self.runs = RunStore(self._session)
        self.sales = SalesStore(self._session)
        self.yields = YieldStore(self._session)
        self.what_ifs = WhatIfStore(self._session)
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        del kind, error, traceback
        self._session.rollback()
        self._session.close()

    def commit(self) -> None:
        """Store everything done so far in this unit."""
        self._session.commit()


class Database:
    """Opens units of work. Use cases take this and own the transaction.

    Parameters
    ----------
    engine
        Where the tables are, migrated.
    """

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def reading(self) -> UnitOfWork:
        """Open a unit that only reads."""
        return UnitOfWork(self._engine, writing=False)

    def writing(self) -> UnitOfWork:
        """Open a unit that writes."""
        return UnitOfWork(self._engine, writing=True)

    def close(self) -> None:
        """Give back the connections."""
        self._engine.dispose()
