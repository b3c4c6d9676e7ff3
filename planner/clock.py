"""Clock text for minutes after midnight of the planned day."""

_DAY = 24 * 60


def clock(minutes: int) -> str:
    """Wall-clock text of ``minutes`` after midnight of the planned day.

    The planned day reads ``06:05``; other days put how many days later (or earlier) in front:
    ``+1 06:05``, ``-1 22:00``.
    """
    day, minute = divmod(minutes, _DAY)
    text = f"{minute // 60:02}:{minute % 60:02}"
    return text if day == 0 else f"{day:+} {text}"
