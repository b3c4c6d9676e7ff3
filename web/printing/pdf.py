"""Pages of shapes as a PDF file: real text in an embedded font, black on white."""

import datetime as dt
import math
from collections.abc import Iterator, Sequence
from functools import partial

from fpdf import FPDF
from fpdf.enums import TextMode
from fpdf.prefs import ViewerPreferences

from web.language import language
from web.printing.fonts import FAMILY, font_file, text_width
from web.printing.shapes import Box, Code, Page, Rule, Text

_GREY = 130
_HALO = 0.7
"""Width of the white edge around words that cross lines, mm."""
_STEP = {"hatch": 1.3, "dots": 1.6, "stripes": 2.2, "mesh": 1.4}
"""From one line or dot of a pattern to the next, mm."""


def as_pdf(pages: Sequence[Page], *, title: str, subject: str = "") -> bytes:
    """The pages as one file, each as large as it is.

    Parameters
    ----------
    title
        Shown by readers in place of the file's name.
    subject
        What it is, in some words.
    """
    pdf = FPDF(unit="mm")
    pdf.set_auto_page_break(False)
    pdf.set_margin(0)
    for bold in (False, True):
        pdf.add_font(FAMILY, "B" if bold else "", font_file(bold))
    pdf.set_title(title)
    pdf.set_subject(subject)
    pdf.set_lang(language())
    pdf.set_creator("Prepwright")
    # The same plan gives the same file: it says of itself when it was planned, not when printed.
    pdf.set_creation_date(dt.datetime(2000, 1, 1, tzinfo=dt.UTC))
    pdf.viewer_preferences = ViewerPreferences(display_doc_title=True)
    for page in pages:
        pdf.add_page(format=(page.width, page.height))
        for shape in page.shapes:
            _draw(pdf, shape)
    return bytes(pdf.output())


def _draw(pdf: FPDF, shape: Text | Rule | Box | Code) -> None:
    match shape:
        case Text():
            _text(pdf, shape)
        case Rule():
            _rule(pdf, shape)
        case Box():
            _box(pdf, shape)
        case Code():
            _code(pdf, shape)


def _text(pdf: FPDF, text: Text) -> None:
    pdf.set_font(FAMILY, "B" if text.bold else "", text.size)
    wide = text_width(text.text, text.size, text.bold)
    narrower = text.most is not None and 0 < text.most < wide
    pdf.set_stretching(100 * (text.most or wide) / wide if narrower else 100)
    write = partial(pdf.text, text.x, text.y, text.text)
    if text.angle:
        with pdf.rotation(text.angle, text.x, text.y):
            _inked(pdf, text, write)
    else:
        _inked(pdf, text, write)
    pdf.set_stretching(100)


def _inked(pdf: FPDF, text: Text, write: "partial[None]") -> None:
    if text.halo:
        with pdf.local_context(
            text_mode=TextMode.STROKE, draw_color=(255, 255, 255), line_width=_HALO
        ):
            write()
    pdf.set_text_color(255 if text.on_ink else 0)
    write()
    pdf.set_text_color(0)


def _rule(pdf: FPDF, rule: Rule) -> None:
    pdf.set_line_width(rule.width)
    pdf.set_draw_color(_GREY if rule.grey else 0)
    if rule.dashed:
        pdf.set_dash_pattern(dash=2.5, gap=1.3)
    pdf.line(rule.x, rule.y, rule.to_x, rule.to_y)
    if rule.dashed:
        pdf.set_dash_pattern()
    pdf.set_draw_color(0)


def _box(pdf: FPDF, box: Box) -> None:
    pdf.set_draw_color(0)
    if box.fill != "none":
        pdf.set_fill_color({"ink": 0, "grey": 236}.get(box.fill, 255))
        pdf.rect(box.x, box.y, box.width, box.height, style="F")
    if box.fill in _STEP:
        _pattern(pdf, box)
    if box.edge:
        pdf.set_line_width(box.edge)
        pdf.rect(box.x, box.y, box.width, box.height, style="D")


def _pattern(pdf: FPDF, box: Box) -> None:
    step = _STEP[box.fill]
    pdf.set_draw_color(0)
    if box.fill == "dots":
        pdf.set_fill_color(0)
        for x in _steps(box.x + step / 2, box.x + box.width, step):
            for y in _steps(box.y + step / 2, box.y + box.height, step):
                pdf.ellipse(x - 0.18, y - 0.18, 0.36, 0.36, style="F")
        return
    pdf.set_line_width(0.5 if box.fill == "hatch" else 0.18)
    right, bottom = box.x + box.width, box.y + box.height
    if box.fill == "hatch":
        for shift in _steps(-box.height, box.width, step):
            start, end = max(0.0, shift), min(box.width, shift + box.height)
            if end > start:
                pdf.line(
                    box.x + start, bottom - (start - shift), box.x + end, bottom - (end - shift)
                )
        return
    pdf.set_draw_color(_GREY)
    for x in _steps(box.x + step / 2, right, step):
        pdf.line(x, box.y, x, bottom)
    if box.fill == "mesh":
        for y in _steps(box.y + step / 2, bottom, step):
            pdf.line(box.x, y, right, y)
    pdf.set_draw_color(0)


def _steps(first: float, last: float, step: float) -> Iterator[float]:
    for number in range(max(0, math.ceil((last - first) / step))):
        yield first + number * step


def _code(pdf: FPDF, code: Code) -> None:
    side = code.size / len(code.rows)
    pdf.set_fill_color(255)
    pdf.rect(code.x, code.y, code.size, code.size, style="F")
    pdf.set_fill_color(0)
    for number, row in enumerate(code.rows):
        for start, length in _dark(row):
            pdf.rect(code.x + start * side, code.y + number * side, length * side, side, style="F")


def _dark(row: bytes) -> Iterator[tuple[int, int]]:
    """Runs of dark modules: where each begins and how long it is."""
    start = 0
    while start < len(row):
        length = next((n for n, dark in enumerate(row[start:]) if not dark), len(row) - start)
        if length:
            yield start, length
        start += max(1, length)
