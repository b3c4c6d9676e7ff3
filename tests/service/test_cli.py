"""The command line, with a planning function that does not plan."""

import json
import os
import re
import socket
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import Result
from typer.testing import CliRunner

from service.cli import app
from service.planning import MakePlan
from tests.service import stubs

DAY = "2026-03-02"


@pytest.fixture(autouse=True)
def data_dir(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "data"
    monkeypatch.setenv("PREPWRIGHT_DATA_DIR", str(folder))
    return folder


@pytest.fixture
def kitchen(tmp_path: Path) -> Path:
    path = tmp_path / "kitchen.json"
    path.write_bytes(stubs.kitchen_bytes())
    return path


def run(*words: object, make: MakePlan = stubs.make_well) -> Result:
    return CliRunner().invoke(app, [str(word) for word in words], obj=make)


def test_help_names_every_command_and_the_exit_codes_within_a_second() -> None:
    command = [sys.executable, "-m", "service.cli", "--help"]
    before = os.times()
    shown = subprocess.run(command, capture_output=True, text=True, check=True)  # noqa: S603
    after = os.times()
    for name in ("demo", "check", "plan", "replan", "why", "explain", "compare", "serve", "schema"):
        assert re.search(rf"\b{name}\b", shown.stdout)
    assert "Exit codes" in shown.stdout
    # Time of the processor, not of the clock: other programs may be busy.
    spent = after.children_user - before.children_user
    spent += after.children_system - before.children_system
    assert spent < 1.0


def test_help_loads_neither_the_solver_nor_the_database() -> None:
    code = (
        "import sys, service.cli\n"
        "print([name for name in ('ortools', 'sqlalchemy', 'fastapi') if name in sys.modules])"
    )
    shown = subprocess.run(  # noqa: S603 - our own interpreter and code
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    assert shown.stdout.strip() == "[]"


def test_version() -> None:
    assert re.fullmatch(r"prepwright \d+\.\d+\.\d+\S*", run("--version").output.strip())


def test_check_reports_every_error_and_ends_with_2(tmp_path: Path) -> None:
    document = stubs.kitchen_document()
    document["services"][0]["covers"] = -1
    document["cooks"][0]["initials"] = "TOO LONG"
    path = tmp_path / "bad.json"
    path.write_text(json.dumps(document))
    result = run("check", path)
    assert result.exit_code == 2
    lines = result.stdout.splitlines()
    assert len(lines) == 2
    assert lines[0].startswith("services[0].covers (lunch): -1: ")
    assert lines[1].startswith("cooks[0].initials (ada): TOO LONG: ")


def test_one_error_is_counted_as_one(tmp_path: Path) -> None:
    document = stubs.kitchen_document()
    document["services"][0]["covers"] = -1
    path = tmp_path / "bad.json"
    path.write_text(json.dumps(document))
    assert run("check", path).stderr == f"{path}: 1 error.\n"


def test_check_of_a_good_file_ends_with_0_and_warns_of_what_a_food_code_may_not_allow(
    tmp_path: Path, kitchen: Path
) -> None:
    good = run("check", kitchen)
    assert (good.exit_code, good.stderr) == (0, "")
    assert "no errors" in good.stdout
    assert "1 dish, " in good.stdout
    document = stubs.kitchen_document()
    document["components"][0]["tcs"] = True
    document["components"][0]["ready_to_eat"] = True
    document["components"][0]["shelf_life_days"] = 12
    risky = tmp_path / "risky.json"
    risky.write_text(json.dumps(document))
    warned = run("check", risky)
    assert warned.exit_code == 0
    assert "warning: components[0]" in warned.stderr
    assert "Food Code" in warned.stderr


def test_a_file_that_is_not_there_is_named_with_a_remedy(tmp_path: Path) -> None:
    for command in (["check"], ["plan"], ["why"]):
        words = [*command, tmp_path / "none.json", *(["onion"] if command == ["why"] else [])]
        result = run(*words)
        assert result.exit_code == 2
        assert "none.json: it cannot be read" in result.stderr


def test_a_file_that_is_too_large_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "large.json"
    path.write_bytes(b" " * 5_000_001)
    result = run("check", path)
    assert result.exit_code == 2
    assert "5000000 bytes" in result.stderr


def test_plan_writes_the_plan_file_and_the_sheets_and_sums_up(
    tmp_path: Path, kitchen: Path, data_dir: Path
) -> None:
    out, sheets = tmp_path / "plan.json", tmp_path / "sheets"
    result = run("plan", kitchen, "--date", DAY, "--json", out, "--html", sheets, "--seed", "5")
    assert result.exit_code == 0, result.output
    assert json.loads(out.read_text()) == {"origin": "last with seed 5"}
    assert (sheets / "index.html").is_file()
    assert "Test Kitchen, Monday 2 March 2026" in result.stdout
    assert "Labor: 100 min" in result.stdout
    assert "Batching saves 20 min" in result.stdout
    assert "Everything due is made on time." in result.stdout
    assert "labor 110 min" in result.stderr, "progress in plain lines where no terminal is"
    assert not data_dir.exists(), "plan stores nothing"


def test_plan_prints_nothing_but_the_plan_file_to_standard_output_when_asked(
    kitchen: Path,
) -> None:
    result = run("plan", kitchen, "--date", DAY, "--json", "-")
    assert json.loads(result.stdout) == {"origin": "last with seed 1"}


def test_sheets_are_written_in_the_language_that_is_set_and_the_terminal_speaks_english(
    kitchen: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    told = {}
    for language in ("en", "es"):
        monkeypatch.setenv("PREPWRIGHT_LANGUAGE", language)
        folder = tmp_path / language
        result = run("plan", kitchen, "--date", DAY, "--html", folder)
        assert result.exit_code == 0, result.output
        assert f'<html lang="{language}">' in (folder / "index.html").read_text()
        # What took how long differs from run to run.
        told[language] = re.sub(r"file://\S+|\d+\.\d s\b", "", result.output)
    assert "Your local food code" in (tmp_path / "en" / "cook-ada.html").read_text()
    assert "código local de alimentos" in (tmp_path / "es" / "cook-ada.html").read_text()
    assert told["en"] == told["es"]
    plan_files = [(tmp_path / one / "plan.json").read_text() for one in told]
    assert plan_files[0] == plan_files[1], "what programs read has no language"


@pytest.mark.parametrize(
    ("make", "code", "words"),
    [
        (stubs.make_well, 0, "made on time"),
        (stubs.make_late, 3, "LATE: Diced onion is 12 min late. What binds: Ada."),
        (
            stubs.make_short,
            4,
            "SHORT: 20 portions lack diced onion. "
            "No room was found in the time searched; a longer search may find some. "
            "What binds in this plan: Ada; 35 hands-on min missing.",
        ),
    ],
)
def test_the_exit_code_tells_how_the_plan_stands_and_the_text_how_much_is_missing(
    kitchen: Path, make: MakePlan, code: int, words: str
) -> None:
    result = run("plan", kitchen, "--date", DAY, make=make)
    assert result.exit_code == code
    assert words in result.stdout


def test_a_day_that_cannot_be_planned_ends_with_2(kitchen: Path) -> None:
    result = run("plan", kitchen, "--date", DAY, make=stubs.make_refusal)
    assert result.exit_code == 2
    assert "has no service then; choose another day" in result.stderr
    assert "Traceback" not in result.output


def test_a_fault_of_the_program_ends_with_1_and_its_traceback(kitchen: Path) -> None:
    result = run("plan", kitchen, "--date", DAY, make=stubs.make_bug)
    assert result.exit_code == 1
    assert "not at fault" in result.stderr
    assert "Traceback" in result.stderr


def test_a_place_that_cannot_be_written_is_named(kitchen: Path, tmp_path: Path) -> None:
    result = run("plan", kitchen, "--date", DAY, "--json", tmp_path / "none" / "plan.json")
    assert result.exit_code == 2
    assert "cannot be written" in result.stderr


@pytest.mark.parametrize(
    "words",
    [
        ["--date", "02.03.2026"],
        ["--seconds", "-1"],
        ["--deterministic-limit", "0"],
        ["--seed", "x"],
    ],
)
def test_a_wrong_option_ends_with_2(kitchen: Path, words: list[str]) -> None:
    result = run("plan", kitchen, *words)
    assert result.exit_code == 2
    assert words[0] in result.stderr


def test_a_bad_setting_ends_with_2_and_names_it(
    kitchen: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PREPWRIGHT_PLAN_SECONDS", "soon")
    result = run("plan", kitchen)
    assert result.exit_code == 2
    assert "PREPWRIGHT_PLAN_SECONDS: 'soon'" in result.stderr


def test_demo_once_stores_plans_writes_and_sums_up(data_dir: Path) -> None:
    result = run("demo", "--once", "--date", DAY, "--seconds", "1")
    assert result.exit_code == 0, result.output
    assert "First sheet after" in result.stderr
    [page] = data_dir.glob(f"sheets/{DAY}/*/index.html")
    assert page.as_uri() in result.stdout
    assert (data_dir / "prepwright.sqlite3").is_file()
    assert "Monday 2 March 2026" in result.stdout


def test_demo_once_keeps_earlier_plans(data_dir: Path) -> None:
    for _ in range(2):
        assert run("demo", "--once", "--date", DAY).exit_code == 0
    assert len(list(data_dir.glob(f"sheets/{DAY}/*/index.html"))) == 2


@pytest.mark.parametrize("command", ["serve", "demo"])
def test_a_port_in_use_is_told_at_once_with_a_remedy(
    monkeypatch: pytest.MonkeyPatch, command: str
) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        monkeypatch.setenv("PREPWRIGHT_PORT", str(port))
        result = run(command)
    assert result.exit_code == 2
    assert f"PREPWRIGHT_PORT: {port}: another program uses it" in result.stderr


def test_a_host_that_is_not_this_machines_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PREPWRIGHT_HOST", "203.0.113.7")
    result = run("serve")
    assert result.exit_code == 2
    assert "PREPWRIGHT_HOST: 203.0.113.7" in result.stderr


def test_a_data_folder_that_cannot_be_used_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").touch()
    monkeypatch.setenv("PREPWRIGHT_DATA_DIR", str(tmp_path / "file" / "data"))
    result = run("demo", "--once")
    assert result.exit_code == 2
    assert "PREPWRIGHT_DATA_DIR" in result.stderr


@pytest.mark.parametrize("name", ["kitchen", "plan"])
def test_schemas_are_printed_as_json(name: str) -> None:
    schema = json.loads(run("schema", name).stdout)
    assert schema["$schema"].endswith("2020-12/schema")
