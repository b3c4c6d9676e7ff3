"""How the checks write times."""


def clock(minutes: int) -> str:
    """Minutes after midnight as HH:MM; past midnight the hours go on: 25:10."""
    return f"{minutes // 60:02d}:{minutes % 60:02d}"
