"""A cook's sheet on paper: set-up, cautions, pull list, and the batches in order."""

from collections.abc import Iterator, Sequence

from planner.sheet.types import CookSheet, KitchenSheet
from web.language import _
from web.presenters.batches import BatchView
from web.presenters.clock import ClockText
from web.presenters.cook import AwayView, CookView, cook_view
from web.presenters.outputs import LabelView
from web.presenters.preferences import Preferences
from web.printing.blocks import (
    ARROW,
    again_row,
    heading,
    in_two_columns,
    paragraph,
    tick_box,
    with_dots,
)
from web.printing.codes import LEAST_CODE, code
from web.printing.fonts import text_width
from web.printing.paper import Paper, Row, joined, pages_of
from web.printing.pulls import pull_rows
from web.printing.shapes import Box, Page, Rule, Shape, Text
from web.printing.words import Line, Run, line_height, set_lines, wrapped

_TIME_X, _WORK_X = 11.5, 34.0
"""Where clock times and work begin, right of the box to tick and the batch's number, mm."""
_TIME, _TITLE, _AMOUNT, _DETAIL = 13.0, 11.0, 11.5, 8.5
_NEAR = 8.0
_FACE_GAP = 1.5
_COLUMN_GAP = 7.0
_MOST_DEPTH = 150.0
"""A cook's pull list that is longer than that, mm, stands in one column, which
pages may part."""
_BOX = "\N{BALLOT BOX}"


def cook_pages(
    sheet: KitchenSheet, cook: CookSheet, preferences: Preferences, paper: Paper, live: str = ""
) -> tuple[Page, ...]:
    """The pages of one cook, numbered by themselves.

    Parameters
    ----------
    live
        Address of the cook's live page, which a code leads to; empty: none.
    """
    view = cook_view(sheet, cook, preferences)
    width = paper.room
    rows = [_head(view, width, live)]
    if view.set_up:
        runs = [Run(f"{_BOX}\N{NO-BREAK SPACE}{line}") for line in view.set_up]
        rows.append(heading(_("Set up the station"), width, 10, gap=1.5))
        rows += joined(paragraph(runs, width, _NEAR))
    if view.cautions:
        rows.append(heading(_("Cautions"), width, 10, gap=1.5))
        for caution in view.cautions:
            runs = [Run(caution.head, bold=True), Run(caution.rest.lstrip())]
            rows += joined(_glued(runs, width))
    if view.pulls:
        rows.append(heading(_("Pull list"), width, 10, gap=1.5))
        rows += _pulls(view, width)
    again = f"{view.name}, {view.day_name}"
    if view.every_label:
        again += "; " + _("on every label: %(words)s", words=view.every_label)
    rows.append(heading(f"{view.batch_count}, {again}", width, 10, gap=2.0))
    for line in view.day:
        if line.batch:
            rows += joined(_batch(line.batch, view, width))
        elif line.away:
            rows += joined(_away(line.away, width))
    return pages_of(rows, paper, cook.name, lambda: again_row(again, width))


def _pulls(view: CookView, width: float) -> list[Row]:
    narrow = pull_rows(view.pulls, (width - _COLUMN_GAP) / 2)
    both = in_two_columns(narrow, width, _COLUMN_GAP)
    return [both] if both.height <= _MOST_DEPTH else pull_rows(view.pulls, width)


def _glued(runs: Sequence[Run], width: float) -> tuple[Row, ...]:
    """A caution: its head, a stop that belongs to it, and the rest."""
    head, rest = runs
    if rest.text[:1] in ":;,.":
        head, rest = Run(head.text + rest.text[0], bold=True), Run(rest.text[1:])
    return paragraph([head, rest], width, _NEAR, gap=0.3)


def _head(view: CookView, width: float, live: str) -> Row:
    """Who, when, the shift in figures, and the way to the live page."""
    room = width - (LEAST_CODE + 3 if live else 0)
    name = wrapped([Run(view.name, bold=True)], room, 18)
    facts = with_dots(
        [
            [Run(_("Shift")), Run(view.shift, bold=True)],
            *([Run(away.kind), Run(away.when, bold=True)] for away in view.breaks),
            [Run(_("Hands-on")), Run(view.hands_on, bold=True)],
            _fact(_("Prep done"), view.finish),
            _fact(_("Overtime"), view.overtime),
            _fact(_("Runs by itself"), view.runs_on),
            _fact(_("Late"), view.late),
        ]
    )
    parts: list[tuple[Sequence[Line], float]] = [
        (name, 18),
        (wrapped([Run(view.date, bold=True), Run(f"\N{MIDDLE DOT} {view.kitchen}")], room, 10), 10),
        (wrapped(facts, room, 9.5), 9.5),
    ]
    if live:
        told = _(
            "The code opens your live page: tick your batches, set timers, see what has changed "
            "since this was printed."
        )
        parts += [(wrapped([Run(told)], room, _NEAR), _NEAR), (wrapped([Run(live)], room, 7), 7)]
    shapes: list[Shape] = []
    top = 0.0
    for lines, size in parts:
        shapes += set_lines(lines, 0, top, size)
        top += len(lines) * line_height(size) + 0.6
    if live:
        drawn = code(live, width - LEAST_CODE, -2)
        shapes.append(drawn)
        top = max(top, drawn.y + drawn.size)
    shapes.append(Rule(0, top + 0.4, width, top + 0.4, 0.6))
    return Row(top + 1.6, tuple(shapes))


def _fact(name: str, value: str) -> list[Run]:
    return [Run(name), Run(value, bold=True)] if value else []


def _away(away: AwayView, width: float) -> list[Row]:
    words = _(
        "%(kind)s to %(until)s, %(length)s", kind=away.kind, until=away.until, length=away.length
    )
    height = line_height(10) + 1.2
    return [
        Row(
            height,
            (
                Box(0, 0, width, height - 0.4, "grey", edge=0),
                *set_lines([(Run(str(away.start), bold=True),)], _TIME_X, 0.3, 10),
                *set_lines(wrapped([Run(words)], width - _WORK_X, 10), _WORK_X, 0.3, 10),
            ),
        )
    ]


def _batch(batch: BatchView, cook: CookView, width: float) -> list[Row]:
    flow = _flow(batch)
    room = width - _WORK_X
    flow_lines = wrapped(flow, room * 0.5, _AMOUNT)
    flow_width = max(_width(line, _AMOUNT) for line in flow_lines)
    title = wrapped(_title(batch), room - flow_width - 3, _TITLE)
    first = max(
        len(title) * line_height(_TITLE),
        len(flow_lines) * line_height(_AMOUNT),
        line_height(_TIME),
    )
    shapes: list[Shape] = [
        Rule(0, 0, width, 0, 0.3),
        tick_box(0, 1.0),
        *set_lines([(Run(str(batch.number), bold=True),)], 5.2, 1.0, 9),
        *_times(batch.start, batch.until),
        *set_lines(title, _WORK_X, 0.9, _TITLE),
    ]
    for number, line in enumerate(flow_lines):
        left = width - _width(line, _AMOUNT)
        shapes += set_lines([line], left, 0.6 + number * line_height(_AMOUNT), _AMOUNT)
    rows = [Row(first + 1.0, tuple(shapes))]
    faces, faces_width, faces_height = _faces(batch, width)
    details = wrapped(_details(batch, cook), room - faces_width, _DETAIL)
    rows += (
        Row(line_height(_DETAIL), tuple(set_lines([line], _WORK_X, 0, _DETAIL))) for line in details
    )
    if faces:
        rows.insert(1, Row(0.0, faces))
    # The time's second line and the drawn cut reach down beside the details.
    least = max(line_height(_TIME) + line_height(_NEAR) + 1.0, rows[0].height + faces_height)
    height = sum(row.height for row in rows)
    rows.append(Row(max(0.8, least - height), ()))
    return rows


def _times(start: ClockText, until: str) -> Iterator[Text]:
    yield from set_lines([(Run(start.time, bold=True),)], _TIME_X, 0.5, _TIME)
    second = " ".join(part for part in (start.day, _("to %(time)s", time=until)) if part)
    room = _WORK_X - _TIME_X - 1
    lines = wrapped([Run(second)], room, _NEAR)
    yield from set_lines(lines, _TIME_X, 0.5 + line_height(_TIME), _NEAR)


def _title(batch: BatchView) -> list[Run]:
    return [Run(batch.title, bold=True), Run(batch.food)]


def _flow(batch: BatchView) -> list[Run]:
    give = [Run(_("give")), Run(batch.give_count or batch.give, bold=True)]
    if batch.give_count:
        give.append(Run(batch.give))
    if batch.brief:
        return give
    return [Run(_("take")), Run(batch.take, bold=True), Run(ARROW), *give]


def _width(line: Line, points: float) -> float:
    gaps = sum(text_width(" ", points, run.bold) for run in line[:-1])
    return gaps + sum(text_width(run.text, points, run.bold) for run in line)


def _details(batch: BatchView, cook: CookView) -> list[Run]:
    """All that a cook needs of a batch, most pressing first."""
    parts: list[list[Run]] = []
    if batch.dish_words and not batch.brief:
        parts.append([Run(_("for %(dishes)s", dishes=batch.dish_words))])
    if batch.late:
        parts.append([Run(batch.late, bold=True)])
    if batch.due:
        parts.append([Run(_("Ready by")), Run(batch.due, bold=True)])
    parts += [[Run(one.amount, bold=True), Run(one.name)] for one in batch.outputs]
    parts += [
        [
            Run(line.amount),
            Run(line.cut.name, bold=True),
            Run(line.cut.size, bold=True),
            Run(line.cut.note),
        ]
        for line in batch.cuts
    ]
    parts += [_fact(_("First"), batch.hygiene), _plain(_("Food from"), batch.food_from)]
    parts.append(_fact(_("Caution"), "; ".join(batch.caution_words)))
    for number, taking in enumerate(batch.takings):
        head = [Run(_("From"))] if number == 0 else []
        parts.append([*head, Run(taking.name), Run(taking.amount, bold=True), Run(taking.origin)])
    parts += [
        _plain(_("At"), batch.where),
        _fact(_("Reach"), batch.temperature),
        [Run(batch.rounds)],
        [Run(batch.alone, bold=True)],
        [Run("" if batch.brief else batch.guidance_words)],
        *([Run(note, bold=True)] for note in batch.notes),
        _plain(_("Trim"), batch.trim),
        [Run(batch.in_bowl)],
    ]
    if not batch.labels:
        parts.append(_fact(_("Allergens"), batch.allergens))
    parts += (part for one in batch.labels for part in _packing(one, cook))
    kept = ([run for run in part if run.text] for part in parts)
    return with_dots([part for part in kept if part])


def _plain(name: str, value: str) -> list[Run]:
    return [Run(name, bold=True), Run(value)] if value else []


def _packing(label: LabelView, cook: CookView) -> Iterator[list[Run]]:
    hold = _("hold %(storage)s", storage=label.storage)
    into = [Run(_("Into")), Run(label.containers, bold=True)] if label.containers else []
    yield [*into, Run(hold)]
    yield [Run(_("Label")), Run(label.component, bold=True)]
    if not cook.every_label:
        yield [Run(_("Made")), Run(f"{label.made}, {label.initials}")]
    yield [Run(_("Use by")), Run(label.use_by, bold=True)]
    yield [Run(_("Allergens")), Run(label.allergens, bold=True)]


def _faces(batch: BatchView, width: float) -> tuple[tuple[Shape, ...], float, float]:
    """Cuts at their true size, at the right below the amounts; with their width and height, mm."""
    sizes = [
        (float(face.width), float(face.height))
        for line in batch.cuts
        for face in (line.cut.face, line.cut.side)
        if face is not None
    ]
    if not sizes:
        return (), 0.0, 0.0
    words = _("actual size")
    words_width = text_width(words, 7)
    drawn = sum(wide + _FACE_GAP for wide, _high in sizes) - _FACE_GAP
    taken = max(drawn, words_width)
    high = max(high for _wide, high in sizes)
    shapes: list[Shape] = []
    left = width - taken
    for wide, tall in sizes:
        shapes.append(Box(left, 0.4, wide, tall, edge=0.25))
        left += wide + _FACE_GAP
    shapes += set_lines([(Run(words),)], width - words_width, high + 0.5, 7)
    return tuple(shapes), taken + 2.5, high + 0.8 + line_height(7)
