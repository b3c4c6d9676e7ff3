"""What the checker brings with it when it is loaded by itself, in a process of its own."""

import subprocess
import sys

_LOAD = """
import pkgutil, sys
import planner.check
for found in pkgutil.walk_packages(planner.check.__path__, "planner.check."):
    __import__(found.name)
print(*(name for name in sys.modules if name.startswith(("planner.schedule.", "ortools"))))
"""


def test_the_checker_loads_nothing_of_the_solver_but_the_values_both_speak_of() -> None:
    loaded = subprocess.run(  # noqa: S603
        [sys.executable, "-c", _LOAD], capture_output=True, text=True, check=True
    )
    assert set(loaded.stdout.split()) == {"planner.schedule.problem", "planner.schedule.timetable"}
