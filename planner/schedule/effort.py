"""How hard a model is tried, and what came of it."""

from dataclasses import dataclass

from planner.schedule.timetable import Term, Timetable


@dataclass(frozen=True, slots=True)
class Effort:
    """How hard to try: wall seconds and CP-SAT deterministic time in all, threads, seed.

    Each level may use half of what is left, the last one all of it. ``thorough``: for one model
    without circuits, not one of many: it is simplified at length first, and the solver finds its
    first answer by itself. ``repeatable``: threads take turns, so that the same effort finds the
    same again; slower.
    """

    seconds: float
    deterministic: float
    threads: int = 1
    seed: int = 1
    thorough: bool = False
    repeatable: bool = True


@dataclass(frozen=True, slots=True)
class Level:
    """One solved level: its terms, the best proven bound of its first term, whether optimal."""

    terms: tuple[Term, ...]
    bound: int
    optimal: bool


@dataclass(frozen=True, slots=True)
class Answer:
    """The best timetable found, the levels solved, and the deterministic time it took."""

    timetable: Timetable | None
    levels: tuple[Level, ...]
    deterministic: float
