"""``explain`` and ``compare`` on the command line, with kitchens of which the answer is known."""

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import Result
from typer.testing import CliRunner

from service.cli import app
from service.commands.changes import Wanted, changed_kitchen
from tests.explain.test_scarce import one_burner
from tests.explain.test_words import ham
from tests.kitchens.bench import DATE, File, cook, read, work

SHORT = ["--deterministic-limit", "0.1"]


@pytest.fixture(autouse=True)
def data_dir(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PREPWRIGHT_DATA_DIR", str(tmp_path / "data"))
    monkeypatch.setenv("PREPWRIGHT_WORKERS", "1")


def run(command: str, folder: Path, file: File, *words: str) -> Result:
    path = folder / "kitchen.json"
    path.write_text(json.dumps(file))
    arguments = [command, str(path), "--date", DATE.isoformat(), *SHORT, *words]
    return CliRunner().invoke(app, arguments)


def lines(result: Result) -> list[str]:
    assert result.exit_code == 0, result.output
    return result.stdout.splitlines()


def test_a_batch_is_explained_down_to_who_else_could_have_it(tmp_path: Path) -> None:
    file = ham(
        operations=[work("cut", minutes_per=0, each_lot_minutes=60)],
        cooks=[cook("ana"), cook("ben", skills=[{"skill": "hands", "pace": 1.25}])],
    )
    assert lines(run("explain", tmp_path, file, "--batch", "1")) == [
        "Batch 1: Cut Pork, Ben, 08:00-08:48",
        "Why then:",
        "  Not before 08:00: Ben's shift begins then.",
        "Why Ben:",
        "  Ana takes 12 min longer at it; is free in that time. With Ana at it, planned anew: "
        "12 min more work.",
    ]
    untried = lines(run("explain", tmp_path, file, "--batch", "1", "--tries", "0"))
    assert untried[-1] == "  Ana takes 12 min longer at it; is free in that time."


def test_nobody_else_can(tmp_path: Path) -> None:
    shown = lines(run("explain", tmp_path, ham(), "--batch", "1"))
    assert shown[-1] == "  Nobody else can: only Ana has the skill and the station, and is in."


def test_what_is_late_is_told_with_its_chain_and_is_what_is_told_unasked(tmp_path: Path) -> None:
    shown = lines(run("explain", tmp_path, one_burner()))
    assert shown[0].startswith("LATE: Ham, to be ready by 09:30 for Brunch, is 30 min late.")
    assert shown[0].endswith("What binds most: Burner in use.")
    assert shown[1:] == [
        "  09:59-10:00  Take out: Boil Ham (batch 4, Ana). Not before 09:59: Boil Pork (batch 3, "
        "Ana) is left to itself from 09:01 until then.",
        "  09:00-09:01  Boil Pork (batch 3, Ana). Not before 09:00: no Burner is free until then; "
        "the one that comes out then is of Boil Pork (batch 1, Ana), begun at 08:00.",
        "  08:00-08:01  Boil Pork (batch 1, Ana). Not before 08:00: Ana's shift begins then.",
    ]
    assert lines(run("explain", tmp_path, one_burner(), "--late")) == shown
    assert lines(run("explain", tmp_path, ham())) == ["Nothing is late."]


def test_scarce_things_are_told_with_what_they_bring(tmp_path: Path) -> None:
    shown = lines(run("explain", tmp_path, one_burner(), "--scarce"))
    assert shown[0] == "As planned: 30 min late in all, 4 min of work."
    assert "  one more of Burner (2 in place of 1): 30 min less late in all" in shown


def test_questions_may_be_asked_together(tmp_path: Path) -> None:
    shown = lines(run("explain", tmp_path, one_burner(), "--batch", "1", "--late", "--scarce"))
    assert shown[0].startswith("Batch 1: ")
    assert shown.count("") == 2


def test_a_batch_that_is_not_there_ends_with_2(tmp_path: Path) -> None:
    result = run("explain", tmp_path, ham(), "--batch", "9")
    assert result.exit_code == 2
    assert result.stderr.splitlines()[-1] == (
        "--batch: 9: there is no such batch; the plan has batches 1 to 1."
    )


def test_a_plan_that_was_written_is_explained_by_the_numbers_of_its_sheets(tmp_path: Path) -> None:
    out = tmp_path / "plan.json"
    planned = run("plan", tmp_path, one_burner(), "--json", str(out))
    assert planned.exit_code == 3
    path = str(tmp_path / "kitchen.json")
    shown = CliRunner().invoke(app, ["explain", path, "--plan", str(out), "--batch", "4"])
    assert shown.stdout.splitlines()[0] == "Batch 4: Take out: Boil Ham, Ana, 09:59-10:00"
    assert shown.stderr == ""


def test_a_plan_file_that_does_not_fit_ends_with_2(tmp_path: Path) -> None:
    out = tmp_path / "plan.json"
    run("plan", tmp_path, one_burner(), "--json", str(out))
    other = run("explain", tmp_path, one_burner(2), "--plan", str(out))
    assert other.exit_code == 2
    assert "does not go with this kitchen file" in other.stderr
    missing = run("explain", tmp_path, one_burner(), "--plan", str(tmp_path / "none.json"))
    assert missing.exit_code == 2
    assert "none.json: it cannot be read" in missing.stderr
    words = ["explain", str(tmp_path / "kitchen.json"), "--plan", str(out), "--date", "2025-03-05"]
    run("plan", tmp_path, one_burner(), "--json", str(out))
    dated = CliRunner().invoke(app, words)
    assert dated.exit_code == 2
    assert "--date 2025-03-05: the plan file is of 2025-03-04" in dated.stderr


def test_a_comparison_is_a_table_and_what_changes_for_people(tmp_path: Path) -> None:
    shown = lines(run("compare", tmp_path, one_burner(), "--equipment", "burner=2"))
    assert shown[0] == "Tuesday 4 March 2025: as it is, and equipment burner=2"
    table = {line[:30].strip(): line[30:].split() for line in shown[2:8]}
    assert table["minutes late in all"] == ["30", "0", "-30"]
    assert table["minutes of work"] == ["4", "4", "0"]
    assert shown[8] == "For people:"


def test_changes_add_up(tmp_path: Path) -> None:
    """Twice the covers on twice the burners: as late as before, with twice the work."""
    words = ["--equipment", "burner=2", "--covers", "brunch=+100%"]
    out = tmp_path / "out.json"
    run("compare", tmp_path, one_burner(), *words, "--json", str(out))
    found: dict[str, Any] = json.loads(out.read_text())
    assert found["as_it_is"]["late_minutes"] == 30
    assert found["changed"]["labor"] == 2 * found["as_it_is"]["labor"]
    assert set(found["people"]) == {"kept", "moved", "earlier", "later", "added", "dropped"}


def test_json_alone_on_standard_output(tmp_path: Path) -> None:
    result = run("compare", tmp_path, ham(), "--shift", "ana=+30", "--json", "-")
    found = json.loads(result.stdout)
    (move,) = found["people"]["later"]
    assert move["start_after"] - move["start_before"] == 30


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ([], "There is nothing to compare with. Give a change"),
        (["--without", "anna"], "--without anna: cooks: anna: there is none of this id."),
        (["--covers", "many"], "--covers many: write '+20%'"),
        (["--covers", "dinner=+20%"], "--covers dinner=+20%: services: dinner: "),
        (["--covers", "-100000"], "--covers -100000: write '+20%'"),
        (["--equipment", "burner"], "--equipment burner: write an id and a whole number"),
        (["--equipment", "burner=0"], "--equipment burner=0: equipment[0].count (burner): 0: "),
        (["--places", "board=-1"], "--places board=-1: write an id and a whole number"),
        (["--shift", "ana"], "--shift ana: write 'odile=-30'"),
        (["--shift", "all=07:00-15:00"], "--shift all=07:00-15:00: write"),
        (["--shift", "ana=-900"], "--shift ana=-900: cooks[0].shifts[0].start (ana): -07:00: "),
    ],
)
def test_a_change_that_cannot_be_ends_with_2_and_a_remedy(
    tmp_path: Path, words: list[str], told: str
) -> None:
    result = run("compare", tmp_path, one_burner(), *words)
    assert result.exit_code == 2
    assert told in result.stderr


@pytest.mark.parametrize(
    ("text", "covers"), [("+20%", 72), ("-10%", 54), ("+1%", 61), ("25", 25), ("-100%", 0)]
)
def test_covers_are_read_as_share_or_number(text: str, covers: int) -> None:
    changed = changed_kitchen(read(ham()), DATE, Wanted(covers=(text,)))
    assert changed.services[0].covers == covers
