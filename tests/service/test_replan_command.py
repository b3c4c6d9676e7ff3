"""``prepwright replan``: from a plan file and an event to what changes for whom."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from planner.clock import clock_of
from planner.plan_file import plan_document
from service.cli import app
from service.commands.event_options import EventOptions, events_of
from service.errors import UserError
from tests.kitchens.seeds import planned_seed

SEEDS = Path(__file__).parents[2] / "seed_data"


@pytest.fixture
def plan_file(tmp_path: Path) -> Path:
    kitchen, plan = planned_seed("small")
    path = tmp_path / "plan.json"
    path.write_text(plan_document(kitchen, plan).model_dump_json(), encoding="utf-8")
    return path


def run(plan_file: Path, *arguments: str) -> tuple[int, str]:
    command = ["replan", str(SEEDS / "small.json"), "--plan", str(plan_file), "--seconds", "0.2"]
    result = CliRunner().invoke(app, [*command, *arguments])
    return result.exit_code, result.output


def early() -> str:
    _, plan = planned_seed("small")
    first = min(one.start for one in plan.solution.timetable.assignments)
    return f"{first // 60:02d}:{first % 60:02d}"


def test_where_nothing_happened_nobody_is_sent_elsewhere(plan_file: Path) -> None:
    code, text = run(plan_file, "--now", early())
    assert code == 0
    assert text.count("Nobody's work changes.") == 2
    assert "Everything still due is made on time." in text


def test_who_leaves_has_their_work_taken_over_or_missed(plan_file: Path, tmp_path: Path) -> None:
    kitchen, plan = planned_seed("small")
    cook = plan.workload.cooks[plan.solution.timetable.assignments[0].worker]
    out = tmp_path / "rest.json"
    code, text = run(plan_file, "--now", early(), "--cook-gone", cook, "--json", str(out))
    rest = json.loads(out.read_text(encoding="utf-8"))
    assert rest["format"] == "prepwright-replan"
    assert rest["changes"]
    assert all(task["cook"] != cook for task in rest["tasks"])
    assert code == (4 if rest["short"] else 3 if rest["tardiness"] else 0)
    assert "First plan after" in text
    assert kitchen.name == rest["kitchen"]


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("--now", "25:00"), "HH:MM"),
        (("--now", "09:00", "--cook-gone", "zoe"), "Name one of"),
        (("--now", "09:00", "--covers", "dinner"), "ID=N"),
        (("--now", "09:00", "--cook-late", "x=9"), "ID=HH:MM"),
        (("--now", "09:00", "--equipment-down", "pot=two"), "ID=UNITS"),
        (("--now", "09:00", "--date", "1999-01-01"), "is not the day of"),
    ],
)
def test_what_cannot_be_read_ends_with_2(
    plan_file: Path, arguments: tuple[str, ...], words: str
) -> None:
    code, text = run(plan_file, *arguments)
    assert code == 2
    assert words in text


def test_a_plan_of_another_kitchen_ends_with_2(tmp_path: Path) -> None:
    kitchen, plan = planned_seed("demo")
    path = tmp_path / "plan.json"
    path.write_text(plan_document(kitchen, plan).model_dump_json(), encoding="utf-8")
    code, text = run(path, "--now", "09:00")
    assert code == 2
    assert "Plan the day again" in text


def test_events_are_read_with_their_times_and_numbers() -> None:
    options = EventOptions(("a",), ("b=09:30",), ("1:peel=10:00",), ("pot", "oven=2"), ("d=9",))
    gone, late, over, pot, oven, covers = events_of(options, 500)
    assert (gone.at, late.until, over.until) == (500, 570, 600)  # type: ignore[union-attr]
    assert (pot.units, oven.units, covers.covers) == (1, 2, 9)  # type: ignore[union-attr]
    never = EventOptions(delivery_late=("leek=never", "leek=11:05"))
    assert [one.at for one in events_of(never, 500)] == [None, 665]  # type: ignore[union-attr]


@pytest.mark.parametrize("text", ["", "9", "24:00", "09:60", "9:5", "a:00", "09:00:00"])
def test_times_of_the_day_are_strict(text: str) -> None:
    with pytest.raises(ValueError, match=f"^{text}$"):
        clock_of(text)


def test_errors_say_how_to_write_it() -> None:
    with pytest.raises(UserError, match="Write it as ID=HH:MM, or ID=never"):
        events_of(EventOptions(delivery_late=("leek",)), 500)
