"""Where the commands write: results to standard output, the rest to standard error."""

from rich.console import Console


def results() -> Console:
    """Standard output, as it is now."""
    return Console(highlight=False)


def remarks() -> Console:
    """Standard error, as it is now."""
    return Console(stderr=True, highlight=False)


def say(line: str) -> None:
    """Print a line of the result; it is never broken, so that programs can read it."""
    results().print(line, markup=False, soft_wrap=True)


def warn(line: str) -> None:
    """Print a remark."""
    remarks().print(line, markup=False, soft_wrap=True)
