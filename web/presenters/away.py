"""Stretches away from prep, in words."""

from planner.sheet.away import BREAK, ON_LINE, SET_UP
from web.language import _


def away_words(kind: str) -> str:
    """What a stretch is, at the head of a line: ``Break``."""
    words = {BREAK: _("Break"), ON_LINE: _("On the line"), SET_UP: _("Station set-up")}
    return words.get(kind, kind[:1].upper() + kind[1:])
