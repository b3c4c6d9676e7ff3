"""Words of forecasts: ways by their names, and how they did."""

from planner.forecast.choose import Chosen
from planner.forecast.history import COVERS
from web.language import _

_CLOSE = 0.005


def way_words(name: str) -> str:
    """A way to forecast, as it is called on pages."""
    words = {
        "same day last week": _("same day last week"),
        "weekdays about a level": _("weekdays about a level"),
        "exponential smoothing": _("exponential smoothing"),
    }
    return words.get(name, name)


def thing_words(dish: str, name: str) -> str:
    """What is counted: the guests, or a dish by its name."""
    return _("Covers") if dish == COVERS else name


def off(value: float) -> str:
    """By how many a forecast is off, on average."""
    return f"{value:.1f}"


def how_words(chosen: Chosen) -> str:
    """Which way is used, and how it did beside the same day last week."""
    best = chosen.scores[0]
    if chosen.naive_wins:
        return _(
            "By what the same day last week had: over the last %(days)s open days nothing was "
            "better (off by %(off)s a day).",
            days=best.days,
            off=off(best.off),
        )
    if chosen.gain < _CLOSE:
        return _(
            "By %(way)s: over the last %(days)s open days off by %(off)s a day, about as much as "
            "the same day last week.",
            way=way_words(chosen.name),
            days=best.days,
            off=off(best.off),
        )
    return _(
        "By %(way)s: over the last %(days)s open days off by %(off)s a day, %(gain)s %% less than "
        "the same day last week.",
        way=way_words(chosen.name),
        days=best.days,
        off=off(best.off),
        gain=f"{chosen.gain * 100:.0f}",
    )
