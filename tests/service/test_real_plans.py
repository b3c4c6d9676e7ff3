"""The command line with the real planner, on the small bundled kitchen."""

import json
from pathlib import Path

import jsonschema
import pytest
from typer.testing import CliRunner

import seed_data
from planner.kitchen.reading import read_kitchen
from planner.plan_file.schema import plan_schema
from service.cli import app
from service.documents import read_sheet

SMALL = Path(seed_data.__file__).parent / "small.json"
DAY = read_kitchen(SMALL.read_bytes()).as_of.isoformat()
LIMIT = "0.3"


@pytest.fixture(autouse=True)
def _data_dir(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PREPWRIGHT_DATA_DIR", str(tmp_path / "data"))


def _plan(*words: str) -> tuple[int, str]:
    result = CliRunner().invoke(
        app, ["plan", str(SMALL), "--date", DAY, "--deterministic-limit", LIMIT, *words]
    )
    assert result.exit_code in (0, 3, 4), result.output
    return result.exit_code, result.stdout


def test_a_plan_file_of_the_real_planner_fits_its_schema_and_tells_what_the_exit_code_does(
    tmp_path: Path,
) -> None:
    out = tmp_path / "plan.json"
    code, text = _plan("--json", str(out), "--html", str(tmp_path / "sheets"))
    document = json.loads(out.read_text(encoding="utf-8"))
    jsonschema.validate(document, plan_schema())
    sheet = read_sheet((tmp_path / "sheets" / "sheet.json").read_text(encoding="utf-8"))
    assert (code == 0) == ("Everything due is made on time." in text) == (not sheet.troubles)
    for cook in sheet.cooks:
        assert (tmp_path / "sheets" / f"cook-{cook.cook}.html").is_file()
        assert f"{cook.name}: {len(cook.batches)} batch" in text


def test_the_same_file_limit_and_seed_give_the_same_plan(tmp_path: Path) -> None:
    tasks = []
    for name in ("first.json", "second.json"):
        _plan("--json", str(tmp_path / name), "--seed", "4")
        document = json.loads((tmp_path / name).read_text(encoding="utf-8"))
        tasks.append(document["schedule"]["tasks"])
    assert tasks[0] == tasks[1]
    assert tasks[0]


def test_why_reaches_from_the_guests_to_the_shelf() -> None:
    kitchen = read_kitchen(SMALL.read_bytes())
    component = kitchen.dishes[0].components[0].item
    result = CliRunner().invoke(app, ["why", str(SMALL), component, "--date", DAY])
    assert result.exit_code == 0, result.output
    assert len(result.stdout.splitlines()) > 2
    assert kitchen.dishes[0].name in result.stdout


def test_why_of_an_unknown_item_names_close_ones() -> None:
    kitchen = read_kitchen(SMALL.read_bytes())
    component = kitchen.components[0].id
    result = CliRunner().invoke(app, ["why", str(SMALL), f"{component}x", "--date", DAY])
    assert result.exit_code == 2
    assert component in result.stderr
