"""How hard a model is tried, and what came of it."""

from dataclasses import dataclass

from planner.schedule.timetable import Term, Timetable


@dataclass(frozen=True, slots=True)
class Effort:
    """How hard to try: wall seconds and CP-SAT deterministic time in all, threads, seed.

    Each level may use half of what is left, the last one all of it.
    """

    seconds: float
    deterministic: float
    threads: int = 1
    seed: int = 1


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
