"""Other hours for one day, in the file's own values."""

import datetime as dt
from typing import Any

from planner.kitchen.base import clock_minutes, parse_clock
from planner.wording import sentence

_Values = dict[str, Any]


def hours_on(
    shifts: list[_Values], date: dt.date, start: str, end: str
) -> tuple[_Values, tuple[str, ...]]:
    """The shift of ``date`` with other hours, made from the one that holds on it.

    Breaks and times on the line that do not fit the hours are left out or cut short: the second
    value says which, in words. Hours that cannot be are put in as they are: the reading of the
    file says what is wrong with them.
    """
    day = date.isoformat()
    dated = next((one for one in shifts if one.get("date") == day), None)
    usual = next((one for one in shifts if one.get("date") is None), {})
    shift = {**(dated or usual), "date": day, "start": start, "end": end}
    if not _can_be(start, end):
        return shift, ()
    first, last = clock_minutes(start), clock_minutes(end)
    left_out: list[str] = []
    breaks, on_line = [], []
    for rest in shift.get("breaks", ()):
        latest = clock_minutes(rest.get("latest") or rest["start"])
        if first <= clock_minutes(rest["start"]) and latest + rest["minutes"] <= last:
            breaks.append(rest)
        else:
            left_out.append(
                sentence(
                    "the break at {rest} lies outside the hours and is left out", rest=rest["start"]
                )
            )
    for block in shift.get("on_line", ()):
        begins = max(first, clock_minutes(block["start"]))
        ends = min(last, clock_minutes(block["end"]))
        words = sentence(
            "on the line {block} to {block_2} lies outside the hours",
            block=block["start"],
            block_2=block["end"],
        )
        if begins >= ends:
            left_out.append(sentence("{words} and is left out", words=words))
            continue
        kept = {"start": _clock(begins), "end": _clock(ends)}
        on_line.append(kept)
        if kept != block:
            left_out.append(
                sentence(
                    "{words} and is cut to {kept} to {kept_2}",
                    words=words,
                    kept=kept["start"],
                    kept_2=kept["end"],
                )
            )
    for name, values in (("breaks", breaks), ("on_line", on_line)):
        if name in shift:
            shift[name] = values
    return shift, tuple(left_out)


def _can_be(start: str, end: str) -> bool:
    try:
        return clock_minutes(parse_clock(start)) < clock_minutes(parse_clock(end))
    except ValueError:
        return False


def _clock(minutes: int) -> str:
    return f"{minutes // 60:02d}:{minutes % 60:02d}"
