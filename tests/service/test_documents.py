import datetime as dt
import os
import subprocess
import sys
from pathlib import Path

import pytest

import seed_data
from planner.kitchen.dates import moved_to
from planner.kitchen.reading import read_kitchen
from planner.quantities.types import Trace
from service.documents import kitchen_bytes, read_sheet, read_traces, sheet_text, traces_text
from tests.service import stubs

SEEDS = Path(seed_data.__file__).parent


@pytest.mark.parametrize("name", ["demo.json", "small.json"])
def test_a_kitchen_written_out_reads_back_the_same_on_another_day_too(name: str) -> None:
    kitchen = read_kitchen((SEEDS / name).read_bytes())
    assert read_kitchen(kitchen_bytes(kitchen)) == kitchen
    moved = moved_to(kitchen, dt.date(2027, 2, 28))
    assert read_kitchen(kitchen_bytes(moved)) == moved


def test_the_same_kitchen_gives_the_same_bytes_in_another_process() -> None:
    code = (
        "import hashlib, pathlib, sys\n"
        "from planner.kitchen.reading import read_kitchen\n"
        "from service.documents import kitchen_bytes\n"
        "kitchen = read_kitchen(pathlib.Path(sys.argv[1]).read_bytes())\n"
        "print(hashlib.sha256(kitchen_bytes(kitchen)).hexdigest())"
    )
    digests = {
        subprocess.run(  # noqa: S603 - our own interpreter and code
            [sys.executable, "-c", code, str(SEEDS / "demo.json")],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(digests) == 1


def test_a_sheet_written_out_reads_back_the_same() -> None:
    sheet = stubs.sheet_of(read_kitchen(stubs.kitchen_bytes()), dt.date(2026, 3, 2))
    assert read_sheet(sheet_text(sheet)) == sheet


def test_what_is_no_sheet_is_refused() -> None:
    with pytest.raises(ValueError, match="KitchenSheet"):
        read_sheet("{}")


def test_traces_keep_their_children() -> None:
    traces = {"onion": Trace("all", 2.0, ("book",), (Trace("part", 1.0),))}
    text = traces_text(traces)
    assert '"children":[{"text":"part","grams":1.0' in text
    assert read_traces(text) == traces
