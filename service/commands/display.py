"""What is shown while a plan is made: a live line on a terminal, plain lines elsewhere."""

import time
from types import TracebackType
from typing import Self

from rich.console import Console
from rich.progress import Progress as Bar
from rich.progress import SpinnerColumn, TextColumn, TimeElapsedColumn

from planner.schedule.timetable import Progress
from service.planning import Made
from service.values import PlanChoices


class PlanDisplay:
    """Shows the plans that are found.

    Parameters
    ----------
    console
        Where to show them.
    choices
        How long the search may take.
    """

    def __init__(self, console: Console, choices: PlanChoices) -> None:
        self._console = console
        self._live = console.is_terminal
        self._bar = Bar(
            SpinnerColumn(),
            TextColumn("{task.description}", markup=False),
            TimeElapsedColumn(),
            console=console,
            transient=True,
            disable=not self._live,
        )
        self._limit = f"of {choices.seconds:g} s" if choices.deterministic_limit is None else ""
        self._task = self._bar.add_task("Making the first plan", total=None)

    def __enter__(self) -> Self:
        self._began = time.monotonic()
        self._bar.start()
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        del kind, error, traceback
        self._bar.stop()

    @property
    def seconds(self) -> float:
        """Seconds since it began."""
        return time.monotonic() - self._began

    def say(self, line: str) -> None:
        """Print a line that stays."""
        self._console.print(line, markup=False, highlight=False, soft_wrap=True)

    def first(self, made: Made) -> None:
        """Show the first plan."""
        score = made.plan.solution.score
        self._show(f"first plan: {_words(score.short, score.tardiness, score.labor)}")

    def progress(self, progress: Progress) -> None:
        """Show an improvement."""
        score = progress.score
        words = _words(score.short, score.tardiness, score.labor)
        self._show(f"{words} ({progress.origin})")

    def _show(self, words: str) -> None:
        if self._live:
            self._bar.update(self._task, description=f"{words}  {self._limit}")
        else:
            self.say(f"{self.seconds:6.1f} s  {words}")


def _words(short: int, tardiness: int, labor: int) -> str:
    parts = [f"late {tardiness} min", f"labor {labor} min"]
    return ", ".join(([f"short {short} portions"] if short else []) + parts)
