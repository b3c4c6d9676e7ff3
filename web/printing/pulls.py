"""Pull lists on paper: what to fetch, by place, with a box to tick beside each line."""

from collections.abc import Iterator, Sequence

from planner.sheet.types import KitchenSheet
from web.language import _
from web.presenters.clock import long_date
from web.presenters.preferences import Preferences
from web.presenters.pulls import (
    PullGroup,
    PullView,
    cold_words,
    left_out_views,
    pull_groups,
    straight_views,
)
from web.printing.blocks import BODY, again_row, heading, paragraph, tick_box, title_row, with_dots
from web.printing.fonts import text_width
from web.printing.paper import Paper, Row, joined, pages_of
from web.printing.shapes import Page, Rule, Shape
from web.printing.words import Run, line_height, set_lines, wrapped

_AMOUNT = 11.0
_NAME = 9.5
_AFTER_TICK = 6.0


def pull_pages(sheet: KitchenSheet, preferences: Preferences, paper: Paper) -> tuple[Page, ...]:
    """The kitchen's pull list, what goes straight to the line, and what is left out."""
    title = _("Pull list")
    under = f"{sheet.kitchen}, {long_date(sheet.date)}"
    rows = [title_row(title, under, paper.room)]
    rows += pull_rows(pull_groups(sheet.pulls, preferences), paper.room)
    if not sheet.pulls:
        rows += paragraph([Run(_("Nothing is to be pulled."))], paper.room)
    rows += _straight(sheet, preferences, paper.room)
    rows += _left_out(sheet, preferences, paper.room)
    return pages_of(rows, paper, title, lambda: again_row(f"{title}, {under}", paper.room))


def pull_rows(groups: Sequence[PullGroup], width: float) -> list[Row]:
    """Rows of a pull list, a heading for each place."""
    rows: list[Row] = []
    cold = cold_words(groups)
    if cold:
        rows += paragraph([Run(cold)], width, 8)
    for group in groups:
        name = f"{group.storage}: {group.apart}" if group.apart else group.storage
        rows.append(heading(name, width, 10, gap=2.0))
        for line in group.lines:
            rows += joined(_line(line, width))
    return rows


def _line(line: PullView, width: float) -> list[Row]:
    details = [part for part in (line.that_is, line.note) if part]
    if line.left_over:
        details.insert(1, _("%(amount)s left over", amount=line.left_over))
    runs = [[Run(line.name, bold=True)]]
    if line.when:
        runs.append([Run(line.when, bold=True)])
    runs += [[Run(part)] for part in details]
    return ticked(with_dots(runs), line.amount, width)


def ticked(runs: Sequence[Run], amount: str, width: float) -> list[Row]:
    """A line with its box, its words and, at the right, its amount."""
    room = text_width(amount, _AMOUNT, bold=True)
    lines = wrapped(runs, width - _AFTER_TICK - room - 4, _NAME)
    height = max(line_height(_AMOUNT), len(lines) * line_height(_NAME)) + 1.4
    shapes: tuple[Shape, ...] = (
        tick_box(0, 0.9),
        *set_lines(lines, _AFTER_TICK, 0.8, _NAME),
        *set_lines([(Run(amount, bold=True),)], width - room, 0.4, _AMOUNT),
        Rule(_AFTER_TICK, height - 0.2, width, height - 0.2, 0.15, grey=True),
    )
    return [Row(height, shapes)]


def _straight(sheet: KitchenSheet, preferences: Preferences, width: float) -> Iterator[Row]:
    views = straight_views(sheet.straight, preferences)
    if not views:
        return
    yield heading(_("Straight to the line"), width)
    told = _(
        "Dishes take this as it is, so it is on no cook's list. Food as purchased is in the list "
        "above too."
    )
    yield from joined(paragraph([Run(told)], width, BODY))
    for view in views:
        runs = with_dots(
            [
                [Run(view.name, bold=True)],
                [Run(view.dish)],
                [Run(_("On the line by")), Run(view.due, bold=True)],
                [Run(view.storage)],
            ]
        )
        yield from ticked(runs, view.amount, width)


def _left_out(sheet: KitchenSheet, preferences: Preferences, width: float) -> Iterator[Row]:
    views = left_out_views(sheet.left_out, preferences)
    if not views:
        return
    yield heading(_("Not pulled: left out"), width)
    told = _(
        "What this is for is not made or not served, so it stays where it is; some of it may not "
        "be there at all."
    )
    yield from joined(paragraph([Run(told)], width, BODY))
    for view in views:
        yield from paragraph(
            with_dots([[Run(view.name, bold=True), Run(view.amount)], [Run(view.wanted_for)]]),
            width,
        )
