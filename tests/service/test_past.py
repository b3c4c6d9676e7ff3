"""Invented past days: planned, released and ticked as real ones are, and told apart from them."""

import datetime as dt
import json
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest
from typer.testing import CliRunner

from planner.floor.days import DayLabor
from planner.kitchen.document import Kitchen
from planner.kitchen.reading import read_kitchen
from service.app import Program, build
from service.cli import app
from service.commands.past import add_past
from service.db.floor import StoredTick
from service.settings import Settings
from service.usecases.history import INVENTED, LaborHistories
from tests.service import stubs

TODAY = dt.date(2026, 3, 5)
"""A Thursday: the two days before are one without a party and one with it."""
PAST = [TODAY - dt.timedelta(2), TODAY - dt.timedelta(1)]


def _kitchen() -> Kitchen:
    """Lunch, and a party whose number is agreed."""
    document = stubs.kitchen_document()
    party = {**document["services"][0], "id": "party", "name": "Party", "guaranteed": True}
    document["services"].append({**party, "opens": "18:00", "closes": "20:00", "covers": 30})
    return read_kitchen(json.dumps(document).encode())


@pytest.fixture(scope="module")
def past(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Program, str]]:
    """What was invented, with the slug of its kitchen."""
    program = build(Settings(data_dir=tmp_path_factory.mktemp("past")))
    yield program, add_past(program, _kitchen(), TODAY, len(PAST))
    program.database.close()


def _days(program: Program, slug: str) -> Sequence[DayLabor]:
    evening = dt.datetime.combine(TODAY, dt.time(23), dt.UTC)
    found = LaborHistories(program.database).of(slug, PAST[0], TODAY, now=lambda: evening)
    assert found.invented, "nobody is to take them for worked days"
    return found.days


def _ticks(program: Program, slug: str, date: dt.date) -> Sequence[StoredTick]:
    with program.database.reading() as unit:
        release = unit.floor.release(slug, date)
        assert release is not None
        assert release.number == 1
        return unit.floor.ticks(release)


def test_each_day_before_today_is_worked_and_today_is_not(past: tuple[Program, str]) -> None:
    program, slug = past
    days = _days(program, slug)
    assert [day.date for day in days] == PAST
    assert all(line.took for day in days for line in day.lines)
    tuesday, wednesday = (day.covers for day in days)
    # So many of the bundled day's 40 as the weekday brings; the party of 30 comes on Wednesday.
    assert 0.8 * 0.93 * 40 - 1 < tuesday < 0.8 * 1.07 * 40 + 1
    assert 0.85 * 0.93 * 40 - 1 < wednesday - 30 < 0.85 * 1.07 * 40 + 1
    for date in PAST:
        ticks = _ticks(program, slug, date)
        assert {tick.device for tick in ticks} == {INVENTED}
        assert Counter(tick.act for tick in ticks)["done"] == len(days[0].lines)


def test_the_same_days_are_invented_again_and_none_twice(
    past: tuple[Program, str], tmp_path: Path
) -> None:
    def said(program: Program) -> Sequence[tuple[str, dt.datetime]]:
        return [(tick.key, tick.at) for tick in _ticks(program, slug, PAST[1])]

    program, slug = past
    other = build(Settings(data_dir=tmp_path))
    add_past(other, _kitchen(), TODAY, 1)
    before = said(program)
    assert said(other) == before
    add_past(program, _kitchen(), TODAY, len(PAST))
    assert said(program) == before
    other.database.close()


def test_the_demo_says_that_they_are_invented_and_plans_today(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PREPWRIGHT_DATA_DIR", str(tmp_path))
    words = ["demo", "--once", "--date", TODAY.isoformat(), "--with-past", "1"]
    result = CliRunner().invoke(app, words, obj=stubs.make_with_work)
    assert result.exit_code == 0, result.output
    assert "Inventing 1 past day with its ticks; nobody worked them" in result.stdout
    program = build(Settings(data_dir=tmp_path))
    with program.database.reading() as unit:
        (kitchen,) = unit.kitchens.summaries()
        assert f"/kitchens/{kitchen.slug}/labor" in result.stdout
        assert unit.floor.release(kitchen.slug, PAST[1]) is not None
        assert unit.floor.release(kitchen.slug, TODAY) is None
        assert len(unit.plans.of_day(kitchen.slug, TODAY)) == 1
    program.database.close()
