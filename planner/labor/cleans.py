"""How often surfaces and tools are cleaned and sanitised during the day, and what that takes."""

from planner.schedule.assemble import cleaned_holds
from planner.schedule.tables import Tables
from planner.schedule.timetable import Timetable


def cleans_of(tables: Tables, timetable: Timetable) -> tuple[int, int]:
    """(cleans, their minutes): one for each surface or tool that another food has left unclean.

    Cleaning down at the end of the day is not planned and not counted.
    """
    starts = {item.task: item.start for item in timetable.assignments}
    units = {hold: unit for item in timetable.assignments for hold, unit in item.units}
    minutes = sum(item.lead.clean for item in timetable.assignments)
    return len(cleaned_holds(tables, starts, units)), minutes
