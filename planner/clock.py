"""Minutes after midnight of the planned day, and the text a clock has for them."""

_DAY = 24 * 60


def clock(minutes: int) -> str:
    """Wall-clock text of ``minutes`` after midnight of the planned day.

    The planned day reads ``06:05``; other days put how many days later (or earlier) in front:
    ``+1 06:05``, ``-1 22:00``.
    """
    day, minute = divmod(minutes, _DAY)
    text = f"{minute // 60:02}:{minute % 60:02}"
    return text if day == 0 else f"{day:+} {text}"


def clock_of(text: str) -> int:
    """Minutes after midnight of ``HH:MM`` within one day; ValueError for anything else."""
    hours, colon, minutes = text.partition(":")
    if not (colon and hours.isdecimal() and minutes.isdecimal() and len(minutes) == 2):
        raise ValueError(text)
    if int(hours) > 23 or int(minutes) > 59:
        raise ValueError(text)
    return int(hours) * 60 + int(minutes)
