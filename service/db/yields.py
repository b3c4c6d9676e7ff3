"""Yield tests, answers and decisions, in and out of rows."""

import datetime as dt
import uuid
from collections.abc import Sequence
from functools import cache
from typing import Any

from pydantic import TypeAdapter
from sqlalchemy import delete, func
from sqlmodel import Session, col, select

from planner.kitchen.base import OwnShare, OwnYield
from planner.yields.asking import Question
from planner.yields.decide import Way
from planner.yields.judging import Answer, TakenTest
from planner.yields.record import BenchRecord
from planner.yields.repeats import Load
from service.db.tables import (
    ReleaseRow,
    TickRow,
    YieldAnswerRow,
    YieldDecisionRow,
    YieldGatheredRow,
    YieldTestRow,
)
from service.yield_values import StoredTest, YieldDecision, YieldState

_BENCH = "bench-"


@cache
def _records() -> TypeAdapter[BenchRecord]:
    return TypeAdapter(BenchRecord)


@cache
def _questions() -> TypeAdapter[tuple[Question, ...]]:
    return TypeAdapter(tuple[Question, ...])


class YieldStore:
    """Reads and adds what is known of a kitchen's yields within one unit of work.

    Parameters
    ----------
    session
        The unit's session.
    """

    def __init__(self, session: Session) -> None:
        self._session = session

    def tests(self, kitchen_id: uuid.UUID) -> tuple[StoredTest, ...]:
        """All tests of a kitchen, oldest first."""
        rows = self._session.exec(
            select(YieldTestRow)
            .where(YieldTestRow.kitchen_id == kitchen_id)
            .order_by(col(YieldTestRow.date), col(YieldTestRow.created_at), col(YieldTestRow.key))
        )
        return tuple(_test(row) for row in rows)

    def bench_test(self, kitchen_id: uuid.UUID, number: int) -> StoredTest | None:
        """The bench test with this number, or None."""
        row = self._session.exec(
            select(YieldTestRow).where(
                YieldTestRow.kitchen_id == kitchen_id, YieldTestRow.number == number
            )
        ).first()
        return None if row is None else _test(row)

    def add_bench_test(
        self,
        kitchen_id: uuid.UUID,
        sent: str,
        record: BenchRecord,
        load: Load,
        trim: tuple[tuple[tuple[str, float], ...], bool],
        *,
        actor: str,
        now: dt.datetime,
    ) -> StoredTest:
        """Keep a bench test as the next of its kitchen; the same sent again is the one kept.

        ``sent`` names the form it came from: a form that is sent twice is one test. ``trim`` is
        what was kept of it, and whether all that was taken off was weighed.
        """
        key = f"{_BENCH}{sent}"
        known = self._session.exec(
            select(YieldTestRow).where(
                YieldTestRow.kitchen_id == kitchen_id, YieldTestRow.key == key
            )
        ).first()
        if known is not None:
            return _test(known)
        newest = self._session.exec(
            select(func.max(YieldTestRow.number)).where(YieldTestRow.kitchen_id == kitchen_id)
        ).one()
        asked = () if record.settled else record.questions
        taken = TakenTest(key, record.date, load, record.supplier, record.cook, asked, *trim)
        row = _row(kitchen_id, record.of, taken, actor=actor, now=now)
        row.number = (newest or 0) + 1
        row.record = _records().dump_json(record).decode()
        self._session.add(row)
        self._session.flush()
        return _test(row)

    def replace_floor_tests(
        self,
        kitchen_id: uuid.UUID,
        date: dt.date,
        tests: Sequence[tuple[str, TakenTest]],
        *,
        actor: str,
        now: dt.datetime,
    ) -> None:
        """Put these in the place of a day's tests of the floor; answers hold by their keys."""
        self._session.exec(
            delete(YieldTestRow).where(
                col(YieldTestRow.kitchen_id) == kitchen_id,
                col(YieldTestRow.date) == date,
                col(YieldTestRow.number).is_(None),
            )
        )
        for of, taken in tests:
            self._session.add(_row(kitchen_id, of, taken, actor=actor, now=now))
        self._session.flush()

    def answers(self, kitchen_id: uuid.UUID) -> dict[str, Answer]:
        """What holds of each test that somebody answered."""
        rows = self._session.exec(
            select(YieldAnswerRow)
            .where(YieldAnswerRow.kitchen_id == kitchen_id)
            .order_by(col(YieldAnswerRow.created_at))
        )
        return {row.test_key: Answer(row.answer) for row in rows}

    def add_answer(
        self,
        kitchen_id: uuid.UUID,
        test_key: str,
        answer: Answer,
        reason: str,
        *,
        actor: str,
        now: dt.datetime,
    ) -> None:
        """Keep an answer; it holds from now on."""
        self._session.add(
            YieldAnswerRow(
                kitchen_id=kitchen_id,
                test_key=test_key,
                answer=answer.value,
                reason=reason,
                created_by=actor,
                created_at=now,
            )
        )
        self._session.flush()

    def decisions(self, kitchen_id: uuid.UUID) -> tuple[YieldDecision, ...]:
        """All decisions of a kitchen, the newest first."""
        rows = self._session.exec(
            select(YieldDecisionRow)
            .where(YieldDecisionRow.kitchen_id == kitchen_id)
            .order_by(col(YieldDecisionRow.number).desc())
        )
        return tuple(_decision(row) for row in rows)

    def add_decision(
        self,
        kitchen_id: uuid.UUID,
        of: str,
        way: Way,
        before: YieldState,
        after: YieldState,
        version: int,
        *,
        reason: str = "",
        puts_back: int | None = None,
        actor: str,
        now: dt.datetime,
    ) -> int:
        """Keep a decision as the next of its kitchen; its number."""
        newest = self._session.exec(
            select(func.max(YieldDecisionRow.number)).where(
                YieldDecisionRow.kitchen_id == kitchen_id
            )
        ).one()
        number = (newest or 0) + 1
        self._session.add(
            YieldDecisionRow(
                kitchen_id=kitchen_id,
                number=number,
                of=of,
                way=way.value,
                before=_state_values(before),
                after=_state_values(after),
                reason=reason,
                version=version,
                puts_back=puts_back,
                created_by=actor,
                created_at=now,
            )
        )
        self._session.flush()
        return number

    def ungathered(
        self, kitchen_id: uuid.UUID, today: dt.date, from_date: dt.date
    ) -> tuple[tuple[dt.date, int, int, bool], ...]:
        """Days whose floor has said more than the tests of the floor know.

        Each with its newest release's number, how many ticks it has, and whether it is over.
        """
        stands = self._session.exec(
            select(
                col(ReleaseRow.date),
                func.max(col(ReleaseRow.number)),
                func.count(col(TickRow.id)),
            )
            .join(TickRow, col(TickRow.release_id) == col(ReleaseRow.id), isouter=True)
            .where(ReleaseRow.kitchen_id == kitchen_id, ReleaseRow.date >= from_date)
            .group_by(col(ReleaseRow.date))
        )
        known = {
            row.date: (row.release, row.ticks, row.over)
            for row in self._session.exec(
                select(YieldGatheredRow).where(YieldGatheredRow.kitchen_id == kitchen_id)
            )
        }
        found = [(date, number, ticks, date < today) for date, number, ticks in stands]
        return tuple(one for one in found if one[2] and known.get(one[0]) != one[1:])

    def gathered(
        self,
        kitchen_id: uuid.UUID,
        date: dt.date,
        release: int,
        ticks: int,
        *,
        over: bool,
        actor: str,
        now: dt.datetime,
    ) -> None:
        """Note how much of a day's floor the tests were made from."""
        self._session.exec(
            delete(YieldGatheredRow).where(
                col(YieldGatheredRow.kitchen_id) == kitchen_id,
                col(YieldGatheredRow.date) == date,
            )
        )
        self._session.add(
            YieldGatheredRow(
                kitchen_id=kitchen_id,
                date=date,
                release=release,
                ticks=ticks,
                over=over,
                created_by=actor,
                created_at=now,
            )
        )
        self._session.flush()


def _row(
    kitchen_id: uuid.UUID, of: str, taken: TakenTest, *, actor: str, now: dt.datetime
) -> YieldTestRow:
    return YieldTestRow(
        kitchen_id=kitchen_id,
        key=taken.key,
        date=taken.date,
        of=of,
        supplier=taken.supplier,
        cook=taken.cook,
        grams_in=taken.load.grams_in,
        grams_out=taken.load.grams_out,
        asked=_questions().dump_python(taken.asked, mode="json"),
        trim={"kept": dict(taken.trim), "whole": taken.trim_whole},
        created_by=actor,
        created_at=now,
    )


def _test(row: YieldTestRow) -> StoredTest:
    return StoredTest(
        of=row.of,
        taken=TakenTest(
            key=row.key,
            date=row.date,
            load=Load(row.grams_in, row.grams_out),
            supplier=row.supplier,
            cook=row.cook,
            asked=_questions().validate_python(row.asked),
            trim=tuple((item, float(grams)) for item, grams in row.trim["kept"].items()),
            trim_whole=bool(row.trim["whole"]),
        ),
        number=row.number,
        record=None if row.record is None else _records().validate_json(row.record),
        created_by=row.created_by,
    )


def _decision(row: YieldDecisionRow) -> YieldDecision:
    return YieldDecision(
        number=row.number,
        of=row.of,
        way=Way(row.way),
        before=_state(row.before),
        after=_state(row.after),
        reason=row.reason,
        version=row.version,
        puts_back=row.puts_back,
        created_by=row.created_by,
        created_at=row.created_at,
    )


def _state(values: dict[str, Any]) -> YieldState:
    since = values["since"]
    return YieldState(
        None if values["own"] is None else OwnYield.model_validate(values["own"]),
        None if since is None else dt.date.fromisoformat(since),
        # Decisions of before shares of trim were learned know none.
        tuple((item, OwnShare.model_validate(one)) for item, one in values.get("trim", {}).items()),
    )


def _state_values(state: YieldState) -> dict[str, Any]:
    return {
        "own": None if state.own is None else state.own.model_dump(mode="json"),
        "since": None if state.since is None else state.since.isoformat(),
        "trim": {item: own.model_dump(mode="json") for item, own in state.trim},
    }
