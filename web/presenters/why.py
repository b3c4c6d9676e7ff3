"""Why a quantity is what it is, as a list that opens line by line."""

from collections.abc import Mapping
from dataclasses import dataclass

from planner.quantities.types import Trace
from web.links import why_anchor
from web.sentences import said

_OPEN_LEVELS = 2
"""So many levels always stand open: the quantity, and what it first follows from."""

_OPEN_LINES = 12
"""Deeper parts with more lines stand closed, so that a phone shows the whole of a long answer at a
glance; starting guess."""


@dataclass(frozen=True, slots=True)
class Said:
    """One cause in words, and where its figures come from, if that is told."""

    text: str
    sources: str


@dataclass(frozen=True, slots=True)
class WhyLine:
    """Causes that follow one from the other, and what the last follows from.

    The latter is shown at once where the line stands ``open``.
    """

    said: tuple[Said, ...]
    open: bool
    lines: tuple["WhyLine", ...]


@dataclass(frozen=True, slots=True)
class WhyView:
    """One quantity: ``said`` is what it comes to, ``lines`` what that follows from."""

    anchor: str
    said: Said
    lines: tuple[WhyLine, ...]


def why_view(item: str, trace: Trace) -> WhyView:
    """The reasons of one quantity."""
    return WhyView(
        anchor=why_anchor(item),
        said=_said(trace),
        lines=_lines(trace, 1),
    )


def why_views(traces: Mapping[str, Trace]) -> tuple[WhyView, ...]:
    """All quantities, by their first words, so that one is found as in an index."""
    views = (why_view(item, trace) for item, trace in traces.items())
    return tuple(sorted(views, key=lambda view: (view.said.text.casefold(), view.anchor)))


def _lines(trace: Trace, level: int) -> tuple[WhyLine, ...]:
    return tuple(_line(child, level) for child in trace.children)


def _line(trace: Trace, level: int) -> WhyLine:
    said = [_said(trace)]
    # What has a single cause is told in one breath with it, rather than one step further in.
    while len(trace.children) == 1:
        (trace,) = trace.children
        said.append(_said(trace))
    return WhyLine(
        said=tuple(said),
        open=level < _OPEN_LEVELS or _count(trace) <= _OPEN_LINES,
        lines=_lines(trace, level + 1),
    )


def _said(trace: Trace) -> Said:
    return Said(
        said(trace.text, reckoning=True), "; ".join(said(source) for source in trace.sources)
    )


def _count(trace: Trace) -> int:
    """Lines below this one."""
    return sum(1 + _count(child) for child in trace.children)
