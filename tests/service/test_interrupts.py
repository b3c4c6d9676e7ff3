"""Ctrl-C, as a terminal sends it: to the program and to the process that plans."""

import json
import os
import signal
import subprocess
import sys
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.service import stubs

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="signals of a terminal")

CODE = (
    "import signal, sys\n"
    # A program started in the background, as these tests may be, has the signal ignored.
    "signal.signal(signal.SIGINT, signal.default_int_handler)\n"
    "from service.cli import app\n"
    "from tests.service import stubs\n"
    "app(sys.argv[2:], obj=getattr(stubs, sys.argv[1]))"
)


@contextmanager
def started(tmp_path: Path, *words: str) -> Iterator[subprocess.Popen[str]]:
    program = subprocess.Popen(  # noqa: S603 - our own interpreter and code
        [sys.executable, "-c", CODE, *words],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
        env={**os.environ, "PREPWRIGHT_DATA_DIR": str(tmp_path / "data"), "PREPWRIGHT_PORT": "0"},
    )
    try:
        yield program
    finally:
        if program.poll() is None:
            os.killpg(program.pid, signal.SIGKILL)
        # What it may have left behind keeps the pipes open: do not wait for their end.
        for stream in (program.stdout, program.stderr):
            if stream is not None:
                stream.close()
        program.wait(timeout=30)


def _interrupt(program: subprocess.Popen[str]) -> None:
    os.killpg(program.pid, signal.SIGINT)


def _read_until(stream: Iterator[str], words: str) -> str:
    for line in stream:
        if words in line:
            return line
    pytest.fail(f"it ended without {words!r}")


@pytest.fixture
def kitchen(tmp_path: Path) -> str:
    path = tmp_path / "kitchen.json"
    path.write_bytes(stubs.kitchen_bytes())
    return str(path)


def test_an_interrupted_search_keeps_the_first_plan(tmp_path: Path, kitchen: str) -> None:
    out = tmp_path / "plan.json"
    words = ("make_slowly", "plan", kitchen, "--date", "2026-03-02", "--json", str(out))
    with started(tmp_path, *words) as program:
        assert program.stderr is not None
        _read_until(program.stderr, "labor 110")
        _interrupt(program)
        stdout, stderr = program.communicate(timeout=30)
    assert program.returncode == 0
    assert "stopped early" in stderr
    assert "Traceback" not in stderr
    assert "Labor: 100 min" in stdout
    assert json.loads(out.read_text()) == {"origin": "first"}


def test_an_interrupt_before_the_first_plan_ends_with_130_and_no_traceback(
    tmp_path: Path,
) -> None:
    with started(tmp_path, "make_nothing_ever", "demo", "--once") as program:
        while not list(tmp_path.glob("data/*.sqlite3-wal")):
            assert program.poll() is None
        _interrupt(program)
        _, stderr = program.communicate(timeout=30)
    assert program.returncode == 130
    assert "Traceback" not in stderr


def test_a_served_demo_is_read_until_an_interrupt_ends_it_with_0(tmp_path: Path) -> None:
    words = ("make_well", "demo", "--date", "2026-03-02")
    with started(tmp_path, *words) as program:
        assert program.stdout is not None
        address = _read_until(program.stdout, "Read it at").split()[-1]
        _read_until(program.stdout, "Serving at")
        with urllib.request.urlopen(address, timeout=30) as answer:  # noqa: S310 - our own server
            page = answer.read().decode()
        _interrupt(program)
        _, stderr = program.communicate(timeout=30)
    assert "/plans/" in page
    assert program.returncode == 0
    assert "Traceback" not in stderr
