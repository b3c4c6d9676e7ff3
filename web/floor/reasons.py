"""What goes wrong most on the floor, in our own words; anything else is typed."""

from web.language import _

ASKS = "Asks for help"
"""What is reported while no reason is given yet."""


def reasons() -> dict[str, str]:
    """Reasons to choose from: what is stored, and the same in the language of the page.

    What is stored does not depend on who reported it: others read it in a language of their own.
    """
    return {
        "Too little food": _("Too little food"),
        "Food is not fit to use": _("Food is not fit to use"),
        "Delivery is not here": _("Delivery is not here"),
        "Equipment fails": _("Equipment fails"),
        "Will not be done in time": _("Will not be done in time"),
        "Somebody is hurt or unwell": _("Somebody is hurt or unwell"),
    }


def reason_words(reason: str) -> str:
    """A stored reason for people; what somebody typed stays as it was typed."""
    return {ASKS: _("Asks for help"), **reasons()}.get(reason, reason)
