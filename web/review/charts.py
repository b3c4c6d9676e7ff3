"""What is drawn on the manager's pages, as Vega-Lite specifications in one ink.

A page shows each as an image with its text beside it. Nothing is said by colour: lines differ in
dash and mark and are named at their end, bars carry their figure. The ink is black on nothing; in
the dark a style sheet turns it round. Source of the form: the Vega-Lite documentation, version 5.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from web.review.words import signed

_INK = "#000000"
_WIDTH = 380
"""Of the whole picture, pixels: a phone shows it as it is."""
_FONT = "Arial, 'Liberation Sans', Helvetica, sans-serif"
_BAR = 28
"""Height of a bar's row, pixels."""
_MANY = 16
"""Marks on a line; more are smaller."""
_ROOM = 0.35
"""Of the longest bar, beside it for its figure."""


@dataclass(frozen=True, slots=True)
class Line:
    """A row of values on a chart; None: nothing known. ``dashed`` has hollow marks."""

    name: str
    values: tuple[float | None, ...]
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Chart:
    """A chart: its name in addresses, its title, what it shows in a sentence, how it is drawn."""

    id: str
    title: str
    alt: str
    spec: Mapping[str, Any]


def lines_chart(
    id: str,  # noqa: A002 - the chart's field of that name
    title: str,
    alt: str,
    marks: Sequence[str],
    lines: Sequence[Line],
    unit: str,
) -> Chart:
    """Values over days or weeks, which ``marks`` names on the axis.

    The axis need not begin at 0: lines, unlike bars, are read by where they go.
    """
    values = [
        {"at": at, "mark": marks[at], "value": value, "line": line.name}
        for line in lines
        for at, value in enumerate(line.values)
        if value is not None
    ]
    names = [line.name for line in lines]
    dashes = [[5, 4] if line.dashed else [1, 0] for line in lines]
    fills = ["#ffffff" if line.dashed else _INK for line in lines]
    # Marks of one name, as of two years, stay two.
    labels = "[{}][datum.value]".format(", ".join(_quoted(mark) for mark in marks))
    across = {
        "field": "at",
        "type": "quantitative",
        "axis": {
            "title": None,
            "grid": False,
            "values": list(range(len(marks))),
            "labelExpr": labels,
            "labelOverlap": "greedy",
            "labelSeparation": 8,
        },
        "scale": {"domain": [0, max(len(marks) - 1, 1)], "nice": False, "padding": 8},
    }
    up = {
        "field": "value",
        "type": "quantitative",
        "axis": {"title": unit, "tickCount": 5},
        "scale": {"zero": False},
    }
    size = 36 if len(marks) <= _MANY else 16
    legend = {"orient": "top", "title": None, "symbolSize": 260, "symbolStrokeWidth": 2}
    spec = {
        **_base(),
        "height": 240,
        "data": {"values": values},
        "encoding": {"x": across, "y": up},
        "layer": [
            {
                "mark": {"type": "line", "strokeWidth": 2, "color": _INK},
                "encoding": {
                    "strokeDash": {
                        "field": "line",
                        "type": "nominal",
                        "scale": {"domain": names, "range": dashes},
                        "legend": legend,
                    }
                },
            },
            {
                "mark": {
                    "type": "point",
                    "filled": True,
                    "size": size,
                    "stroke": _INK,
                    "opacity": 1,
                },
                "encoding": {
                    "fill": {
                        "field": "line",
                        "type": "nominal",
                        "scale": {"domain": names, "range": fills},
                        "legend": None,
                    }
                },
            },
        ],
    }
    return Chart(id, title, alt, spec)


def bars_chart(
    id: str,  # noqa: A002 - the chart's field of that name
    title: str,
    alt: str,
    rows: Sequence[tuple[str, float]],
    unit: str,
    digits: int = 0,
) -> Chart:
    """Differences as bars to both sides of nothing, each with its name and its figure."""
    most = max((abs(value) for _, value in rows), default=0.0) or 1.0
    values = [
        {"at": at, "name": name, "value": value, "text": signed(value, digits)}
        for at, (name, value) in enumerate(rows)
    ]
    lowest = min([0.0, *(value for _, value in rows)])
    highest = max([0.0, *(value for _, value in rows)])
    room = _ROOM * most
    down = {
        "field": "at",
        "type": "ordinal",
        "axis": {
            "title": None,
            "domain": False,
            "ticks": False,
            "labelExpr": "[{}][datum.value]".format(", ".join(_quoted(name) for name, _ in rows)),
            "labelLimit": 150,
            "labelPadding": 6,
        },
    }
    across = {
        "field": "value",
        "type": "quantitative",
        "axis": {"title": unit, "tickCount": 3, "grid": True},
        "scale": {
            "domain": [
                lowest - (room if lowest < 0 else 0),
                highest + (room if highest > 0 else 0),
            ],
            "nice": False,
        },
    }
    spec = {
        **_base(),
        "height": _BAR * len(rows) + 56,
        "data": {"values": values},
        "encoding": {"y": down, "x": across},
        "layer": [
            {
                "transform": [{"filter": "datum.value >= 0"}],
                "mark": {"type": "bar", "color": _INK, "stroke": _INK, "height": {"band": 0.6}},
            },
            {
                # Less than planned is an outline: told apart without its side, too.
                "transform": [{"filter": "datum.value < 0"}],
                "mark": {
                    "type": "bar",
                    "fill": "#ffffff",
                    "stroke": _INK,
                    "strokeWidth": 1.5,
                    "height": {"band": 0.6},
                },
            },
            {"mark": {"type": "rule", "color": _INK}, "encoding": {"x": {"datum": 0}, "y": None}},
            *(
                {
                    "transform": [{"filter": which}],
                    "mark": {
                        "type": "text",
                        "align": align,
                        "dx": dx,
                        "color": _INK,
                        "fontSize": 15,
                    },
                    "encoding": {"text": {"field": "text"}},
                }
                for which, align, dx in (
                    ("datum.value >= 0", "left", 5),
                    ("datum.value < 0", "right", -5),
                )
            ),
        ],
    }
    return Chart(id, title, alt, spec)


def _base() -> dict[str, Any]:
    return {
        "$schema": "https://vega.github.io/schema/vega-lite/v5.json",
        "background": None,
        "width": _WIDTH,
        # Room for fonts that are wider than the one it is drawn with.
        "padding": {"left": 20, "right": 16, "top": 8, "bottom": 8},
        "autosize": {"type": "fit", "contains": "padding"},
        "config": {
            # The image has its text; what is inside is for eyes alone.
            "aria": False,
            "font": _FONT,
            "view": {"stroke": None},
            "axis": {
                "labelColor": _INK,
                "titleColor": _INK,
                "domainColor": _INK,
                "tickColor": _INK,
                "gridColor": _INK,
                "gridOpacity": 0.18,
                "labelFontSize": 15,
                "titleFontSize": 15,
                "titleFontWeight": "normal",
                "titlePadding": 12,
            },
            "legend": {"labelColor": _INK, "labelFontSize": 15, "labelLimit": 200},
        },
    }


def _quoted(text: str) -> str:
    """A text as a literal of Vega's expressions: people write names, which are never code."""
    safe = "".join(one if one.isprintable() else " " for one in text)
    return "'" + safe.replace("\\", "\\\\").replace("'", "\\'") + "'"
