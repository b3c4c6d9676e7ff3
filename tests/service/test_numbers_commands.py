"""``costs`` and ``forecast`` on the command line."""

import csv
import datetime as dt
import io
import json
from pathlib import Path

import pytest
from click.testing import Result
from typer.testing import CliRunner

from planner.kitchen.reading import read_kitchen
from service.app import build
from service.cli import app
from service.clock import utc_now
from service.settings import load_settings
from service.usecases.kitchens import store_kitchen
from tests.forecast.invented import DISHES, FIRST, invented_sales
from tests.kitchens.bench import bench, cut_from, dish, food, service, work

FRIDAY = FIRST + dt.timedelta(7 * 26 + 4)


def run(*words: str) -> Result:
    return CliRunner().invoke(app, list(words))


@pytest.fixture
def kitchen(tmp_path: Path) -> Path:
    """The invented restaurant: every dish takes onions; the stew has costs of its own."""
    file = bench(
        ingredients=[food("onion")],
        operations=[work("dice", yields=[{"food": "onion", "fraction": 0.8}])],
        components=[cut_from("onion", "onions", "dice")],
        dishes=[
            dish(
                name,
                {"onions": "40 g"},
                **({"shortage_cost": 9, "leftover_cost": 1} if name == "stew" else {}),
            )
            for name in DISHES
        ],
        services=[
            {
                **service("dinner_fri", dict.fromkeys(DISHES, 0.5), covers=10),
                "name": "Dinner",
                "date": FRIDAY.isoformat(),
                "guaranteed": False,
            }
        ],
    )
    path = tmp_path / "kitchen.json"
    path.write_text(json.dumps(file))
    return path


@pytest.fixture
def sales(tmp_path: Path) -> Path:
    path = tmp_path / "sales.csv"
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(("date", "service", "dish", "count"))
    for sale in invented_sales(2, weeks=26):
        writer.writerow((sale.date, "Dinner", sale.dish, sale.count))
    path.write_text(out.getvalue())
    return path


def test_dishes_are_costed_and_the_week_s_waste_is_told(kitchen: Path) -> None:
    found = run("costs", str(kitchen), "--date", FRIDAY.isoformat())
    assert found.exit_code == 0, found.output
    # 40 g of onions at 2.00 a kilo and 80 %: 0.10; 50 g diced at 10 min a kilo, 20 an hour: 0.17.
    assert ["Stew", "0.10", "0.5", "0.17", "0.27"] in [x.split() for x in found.stdout.splitlines()]
    assert "What is thrown away, week from 2025-07-07" in found.stdout


def test_costs_as_csv_have_every_food_and_the_dish(kitchen: Path) -> None:
    found = run("costs", str(kitchen), "--csv", "-")
    rows = list(csv.DictReader(io.StringIO(found.stdout)))
    assert len(rows) == 2 * len(DISHES)
    assert rows[1]["line"] == "all of it"
    assert float(rows[1]["food_cost"]) == pytest.approx(0.1)


def test_a_forecast_says_how_it_came_about_and_what_sharing_saves(
    kitchen: Path, sales: Path
) -> None:
    found = run("forecast", str(kitchen), str(sales), "--date", FRIDAY.isoformat())
    assert found.exit_code == 0, found.output
    assert "the kitchen file has 10." in found.stdout
    assert "less than what the same day last week had" in found.stdout
    stew = next(line for line in found.stdout.splitlines() if line.startswith("Stew"))
    assert stew.split()[-5:] == ["costs", "90", "%", "3", "d"]
    assert "with one buffer for all" in found.stdout


def test_what_is_written_is_a_kitchen_file_with_the_forecast_in_it(
    kitchen: Path, sales: Path, tmp_path: Path
) -> None:
    out = tmp_path / "with.json"
    run("forecast", str(kitchen), str(sales), "--date", FRIDAY.isoformat(), "--write", str(out))
    (dinner,) = read_kitchen(out.read_bytes()).services
    assert 100 < dinner.covers < 170
    assert {line.dish: line.per_cover for line in dinner.mix}["stew"] == pytest.approx(
        0.35, abs=0.03
    )


def test_what_does_not_match_is_told_with_the_remedy(kitchen: Path, sales: Path) -> None:
    sales.write_text(sales.read_text().replace("Dinner", "evening"))
    found = run("forecast", str(kitchen), str(sales), "--date", FRIDAY.isoformat())
    assert found.exit_code == 2
    assert "--match dinner_fri=NAME" in found.stderr
    matched = run(
        "forecast",
        str(kitchen),
        str(sales),
        "--date",
        FRIDAY.isoformat(),
        "--match",
        "dinner_fri=evening",
    )
    assert matched.exit_code == 0, matched.output


def test_a_bad_history_or_country_is_an_error_and_a_gap_a_question(
    kitchen: Path, sales: Path
) -> None:
    lines = sales.read_text().splitlines()
    lost = (FIRST + dt.timedelta(8)).isoformat()
    sales.write_text("\n".join(line for line in lines if not line.startswith(lost)))
    found = run("forecast", str(kitchen), str(sales), "--date", FRIDAY.isoformat())
    assert f"nothing of Dinner on {lost}: was it closed, or is it missing?" in found.stderr
    bad = run("forecast", str(kitchen), str(sales), "--date", FRIDAY.isoformat(), "--country", "UK")
    assert bad.exit_code == 2
    assert "--country: no holidays are known for 'UK'" in bad.stderr
    sales.write_text("\n".join([*lines, lines[1]]))
    twice = run("forecast", str(kitchen), str(sales), "--date", FRIDAY.isoformat())
    assert twice.exit_code == 2
    assert "Keep one line" in twice.stderr


@pytest.fixture
def stored(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, kitchen: Path) -> str:
    """A database with the kitchen, and its name in addresses."""
    monkeypatch.setenv("PREPWRIGHT_DATA_DIR", str(tmp_path / "data"))
    program = build(load_settings())
    found = store_kitchen(program.database, kitchen.read_bytes(), actor="test", now=utc_now)
    program.database.close()
    return found.kitchen.slug


def test_sales_are_kept_once_and_put_back(stored: str, sales: Path) -> None:
    first = run("sales", "import", stored, str(sales))
    assert first.exit_code == 0, first.output
    assert "entry 1; new: 936, replaced: 0" in first.stdout
    assert "nothing new; kept already: 936" in run("sales", "import", stored, str(sales)).stdout
    back = run("sales", "back", stored, "1")
    assert back.stdout == "Entry 2 puts entry 1 back.\n"
    assert run("sales", "back", stored, "9").exit_code == 2


def test_what_has_to_be_answered_is_told_with_the_options(
    stored: str, sales: Path, kitchen: Path
) -> None:
    del kitchen
    sales.write_text(sales.read_text().replace("Dinner", "evening"))
    asked = run("sales", "import", stored, str(sales))
    assert asked.exit_code == 2
    assert "evening: the kitchen has no such service" in asked.stderr
    assert "--service NAME=NAME" in asked.stderr
    wrong = run("sales", "import", stored, str(sales), "--service", "evening")
    assert "Write NAME=WHAT" in wrong.stderr
    done = run("sales", "import", stored, str(sales), "--service", "evening=Dinner")
    assert done.exit_code == 0, done.output
    assert run("sales", "import", "nowhere", str(sales)).exit_code == 2
    sales.write_text("date,dish\n")
    assert "nothing is kept" in run("sales", "import", stored, str(sales)).stderr
