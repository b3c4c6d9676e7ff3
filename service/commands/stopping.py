"""A search that shows its plans and that Ctrl-C ends with the best so far."""

import threading
from collections.abc import Callable

from planner.schedule.timetable import Progress
from service.commands.display import PlanDisplay


def reporter(
    display: PlanDisplay, stop: threading.Event, wish: type[Exception]
) -> Callable[[Progress], None]:
    """Shows each better plan; raises ``wish`` once ``stop`` is set."""
    best: list[Progress] = []

    def report(progress: Progress) -> None:
        if not best or progress.score != best[-1].score:
            best.append(progress)
            display.progress(progress)
        if stop.is_set():
            raise wish

    return report
