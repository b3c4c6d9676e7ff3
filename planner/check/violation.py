"""What a check reports: the rule that is broken, where, and the figures that show it."""

from dataclasses import dataclass
from enum import StrEnum


class Rule(StrEnum):
    """Rules of a timetable, then rules of the quantities behind it."""

    ONCE = "once"
    """Each task at most once, and only tasks and cooks that exist."""
    ABLE = "able"
    """The cook can do the task."""
    DURATION = "duration"
    """End = start + the cook's minutes for the task + breaks it is put down over."""
    DAY = "day"
    """Leads and work lie between the problem's start and horizon."""
    RELEASE = "release"
    START_BY = "start by"
    """Where people hold a task at a time, it starts no later."""
    FRESH = "fresh"
    """Not finished before the earliest end."""
    UNTIL = "until"
    SHIFT = "shift"
    """Leads and work lie between the cook's start and latest end."""
    BLOCKED = "blocked"
    """No lead or work in a service block or the station set-up."""
    REST = "rest"
    """Breaks lie in their windows; no lead or work in one, but for work that is put down over it.
    No stretch without a break is longer than the kitchen's rules allow."""
    OVERLAP = "overlap"
    """One cook does one thing at a time."""
    LEAD = "lead"
    """Set-up, changeover, hand wash and cleans are those that the sequence asks for."""
    CLEAN = "clean"
    """Surfaces and tools are cleaned after food that asks for it, and after so long in use."""
    WAIT = "wait"
    HOLD = "hold"
    """Whatever takes a resource also gives it back."""
    UNIT = "unit"
    """Each hold on a contact resource names one unit that exists."""
    SHARED_UNIT = "shared unit"
    """One unit holds one thing at a time."""
    CAPACITY = "capacity"
    WHOLE_JOB = "whole job"
    """All tasks of a lot are done, or none."""
    NEEDS = "needs"
    IMPOSSIBLE = "impossible"
    PIN = "pin"
    """What people hold by hand stays with its cook, and begins as they say."""
    EXPOSURE = "exposure"
    """Food is out of temperature control no longer than it may be, all its steps together."""

    BALANCE = "balance"
    """Grams out = grams in x yield; what goes in comes from somewhere."""
    OVERDRAWN = "overdrawn"
    """No lot, stock or shelf gives more than it has."""
    WANTS = "wants"
    """What is made and what is in stock cover what is wanted."""
    PULL = "pull"
    """Pulled amounts cover the need, in whole units."""
    MINUTES = "minutes"
    """Book minutes follow the rate; planned minutes follow book minutes and pace."""
    LOT_SIZE = "lot size"
    """A lot fits its vessel and its limit."""
    HYGIENE = "hygiene"
    """Boards and hands are told what a lot leaves on them."""
    COOLING = "cooling"
    """What comes hot from a step is cold in time, by the limits of the food code."""


@dataclass(frozen=True, slots=True)
class Violation:
    """One broken rule; ``where`` is the id of the task, lot, cook, resource or item."""

    rule: Rule
    where: str
    text: str

    def __str__(self) -> str:
        return f"{self.rule}: {self.text}"
