"""How often surfaces and tools are cleaned and sanitised during the day, and what that takes."""

from planner.schedule.cleans import cleaned_in
from planner.schedule.tables import Tables
from planner.schedule.timetable import Timetable


def cleans_of(tables: Tables, timetable: Timetable) -> tuple[int, int]:
    """(cleans, their minutes): one for each surface or tool that food or the clock asks it of.

    Cleaning down at the end of the day is not planned and not counted.
    """
    minutes = sum(item.lead.clean for item in timetable.assignments)
    return len(cleaned_in(tables, timetable)), minutes
