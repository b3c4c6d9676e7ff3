"""Time and temperature rules that bound a plan. The local food code governs.

Source of every figure: FDA Food Code, seen through state pages that adopt its text; the section
stands beside each figure. Cooking temperatures in F and C: Ohio's chart of Food Code 2005 (Ohio
Administrative Code 3717-1-03.3). Seconds: North Carolina's food handler manual, which follows Food
Code 2017 (155 F for 17 s, 165 F at once); older editions say 15 s. States adopt other editions, and
change them.
"""

import datetime as dt
from dataclasses import dataclass

from planner.kitchen.foods import RawAnimal
from planner.wording import sentence

LOCAL_CODE = sentence("the local food code governs")

COLD_HOLDING_F = 41.0
"""Held cold at this or below. 3-501.16."""
HOT_HOLDING_F = 135.0
"""Held hot at this or above; some whole roasts 130 F. 3-501.16."""
COLD_HOLDING_C = 5.0
HOT_HOLDING_C = 57.0

DATE_MARK_DAYS = 7
"""Ready-to-eat TCS food kept over 24 h at 41 F or below: most days, day of preparation is day 1.
3-501.17."""

TIME_CONTROL_MINUTES = 240
"""Time alone as control, then serve or discard. 3-501.19."""
TIME_CONTROL_COOL_MINUTES = 360
"""The same for food that starts at 41 F or below and never passes 70 F. 3-501.19."""


@dataclass(frozen=True, slots=True)
class CoolingLimit:
    """Food goes from ``from_f`` to ``to_f`` within ``minutes``: a limit, not a duration."""

    from_f: float
    to_f: float
    minutes: int


COOLING: tuple[CoolingLimit, ...] = (
    CoolingLimit(from_f=135, to_f=70, minutes=120),
    CoolingLimit(from_f=135, to_f=41, minutes=360),
)
"""Cooked food; the clock starts when it falls to 135 F. 3-501.14."""
COOLING_FROM_AMBIENT = CoolingLimit(from_f=70, to_f=41, minutes=240)
"""Food prepared from ingredients at ambient temperature. 3-501.14."""


def celsius(fahrenheit: float) -> float:
    """Degrees Celsius of degrees ``fahrenheit``."""
    return (fahrenheit - 32) * 5 / 9


def fahrenheit(celsius_: float) -> float:
    """Degrees Fahrenheit of degrees ``celsius_``."""
    return celsius_ * 9 / 5 + 32


def use_by(made: dt.date, days: int) -> dt.date:
    """Last day of use of food ``made`` on a date and kept ``days`` days, the first being day 1.

    Raises
    ------
    ValueError
        ``days`` is below 1.
    """
    if days < 1:
        raise ValueError(f"food keeps 1 day or more (1 = used on the day it is made), not {days}")
    return made + dt.timedelta(days=days - 1)


def use_by_with_freezing(made: dt.date, days: int, frozen: dt.date, thawed: dt.date) -> dt.date:
    """Last day of use where the food was frozen between.

    Freezing stops the count and does not set it back: days before the day of freezing count, and
    the day of thawing is the next. The day it was made counts in any case. 3-501.17; worked
    example: North Carolina's sheet on date marking.

    Raises
    ------
    ValueError
        The dates are not in the order made, frozen, thawed, or nothing was left when it was frozen.
    """
    if not made <= frozen <= thawed:
        raise ValueError(
            f"made, frozen and thawed follow one another, not {made}, {frozen}, {thawed}"
        )
    spent = max(1, (frozen - made).days)
    if spent >= days:
        raise ValueError(
            f"food made on {made} with a shelf life of {days} d had none left on {frozen}"
        )
    return use_by(thawed, days - spent)


def minimum_cook_celsius(raw_animal: RawAnimal, ground: bool = False) -> float:
    """Lowest internal temperature, in C, that makes a raw animal food safe.

    74 C (165 F, below one second) poultry and wild game; 68 C (155 F, 17 s) ground, and eggs not
    broken for immediate service, as none are in preparation; 63 C (145 F, 15 s) fish, shellfish and
    whole cuts. Stuffed food is 74 C throughout: give its step that temperature. Lower for longer is
    allowed for whole roasts, 3-401.11(B), and is not known here. 3-401.11.
    """
    if raw_animal in (RawAnimal.POULTRY, RawAnimal.GAME):
        return 74.0
    if ground or raw_animal is RawAnimal.EGG:
        return 68.0
    return 63.0
