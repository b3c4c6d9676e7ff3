"""Yields for people: percent, and the kitchen's own beside the usual."""

from web.language import _, ngettext
from web.presenters.quantities import number


def percent(fraction: float, decimals: int = 1) -> str:
    """A yield: ``84.2 %``."""
    return f"{number(fraction * 100, decimals)} %"


def tests_counted(tests: int) -> str:
    """``12 tests``."""
    return ngettext("%(n)s test", "%(n)s tests", tests)


def beside_usual(usual: float, own: float, tests: int) -> str:
    """The usual yield and the kitchen's own: ``usual 88 %, yours 84 % (12 tests)``."""
    if tests:
        return _(
            "usual %(usual)s, yours %(own)s (%(tests)s)",
            usual=percent(usual, 0),
            own=percent(own, 0),
            tests=tests_counted(tests),
        )
    return _(
        "usual %(usual)s, yours %(own)s (by hand)", usual=percent(usual, 0), own=percent(own, 0)
    )
