import datetime as dt
import multiprocessing
import threading
import time

import pytest

from planner.schedule.timetable import Progress
from service.planning import Made, MakePlan
from service.solving import Order, Solved, SolveError, solve
from service.values import PlanChoices
from tests.service import stubs

DAY = dt.date(2026, 3, 2)


class Seen:
    """What was told while solving; stops it when ``stop_at`` is told."""

    def __init__(self, stop_at: str = "") -> None:
        self.told: list[str] = []
        self.stop = threading.Event()
        self._stop_at = stop_at

    def first(self, made: Made) -> None:
        self._tell(made.texts.document)

    def progress(self, progress: Progress) -> None:
        self._tell(f"labor {progress.score.labor}")

    def _tell(self, what: str) -> None:
        self.told.append(what)
        if what == self._stop_at:
            self.stop.set()


def _solve(make: MakePlan, seen: Seen | None = None, kitchen: bytes | None = None) -> Solved:
    seen = seen or Seen()
    order = Order(kitchen or stubs.kitchen_bytes(), DAY, PlanChoices(seed=3))
    return solve(order, make, on_first=seen.first, on_progress=seen.progress, stop=seen.stop)


def test_the_first_plan_comes_before_the_improvements_and_the_last_is_returned() -> None:
    seen = Seen()
    solved = _solve(stubs.make_well, seen)
    assert seen.told == ['{"origin": "first"}', "labor 110", "labor 100"]
    assert solved.finished
    assert solved.made.texts.document == '{"origin": "last with seed 3"}'


def test_stopping_ends_the_process_and_keeps_the_first_plan() -> None:
    began = time.monotonic()
    solved = _solve(stubs.make_slowly, Seen(stop_at="labor 110"))
    assert not solved.finished
    assert solved.made.texts.document == '{"origin": "first"}'
    assert time.monotonic() - began < 30
    assert multiprocessing.active_children() == []


def test_a_search_that_hears_the_wish_to_stop_hands_over_its_best_plan() -> None:
    solved = _solve(stubs.make_until_stopped, Seen(stop_at="labor 110"))
    assert not solved.finished
    assert solved.made.texts.document == '{"origin": "best so far"}'


def test_stopping_before_the_first_plan_says_so() -> None:
    seen = Seen()
    threading.Timer(0.5, seen.stop.set).start()
    with pytest.raises(SolveError, match="stopped before it had a plan"):
        _solve(stubs.make_nothing_ever, seen)
    assert multiprocessing.active_children() == []


def test_a_crash_of_the_process_is_told_with_its_exit_code() -> None:
    with pytest.raises(SolveError, match=r"ended by itself, with exit code 9.*fewer workers"):
        _solve(stubs.make_crash)


def test_a_refusal_reads_as_the_planner_worded_it() -> None:
    with pytest.raises(SolveError, match=r"^date: 2026-03-02: Test Kitchen has no service then;"):
        _solve(stubs.make_refusal)


def test_a_fault_of_the_program_is_not_blamed_on_the_kitchen() -> None:
    with pytest.raises(SolveError, match=r"KeyError: 'lot 7'.*not at fault") as caught:
        _solve(stubs.make_bug)
    assert "Traceback" in caught.value.details
    assert "Traceback" not in str(caught.value)


def test_a_bad_kitchen_file_is_refused_over_there_too() -> None:
    with pytest.raises(SolveError, match="format"):
        _solve(stubs.make_well, kitchen=b"{}")
