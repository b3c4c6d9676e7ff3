"""Sheets as files that open by themselves, without a server: to print, to send, to keep."""

import uuid
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from planner.sheet.types import KitchenSheet
from service.documents import read_traces
from service.planning import Made
from service.whole_files import write_whole
from web.language import SOURCE, _, speaking
from web.links import WHY_FILE, Choice, Links, cook_file
from web.pages import lane_chart_svg, render_cook, render_kitchen, render_wall, render_whys
from web.presenters.labels import label_kinds, printed_labels
from web.presenters.preferences import Preferences
from web.printing.files import labels_pdf, pull_list_pdf, sheets_pdf, usual_paper, wall_pdf
from web.printing.labels import fitting_stock
from web.printing.stock import A4_2X4, A4_2X7, A4_3X8, ROLL_62

INDEX = "index.html"

Live = Callable[[str], str]
"""Address of a cook's live page by the cook's id."""
LiveOf = Callable[[uuid.UUID], Live]
"""The same of a plan's day, by the plan's key."""


def _nowhere(_cook: str) -> str:
    """Nobody is told of a live page."""
    return ""


def _no_live(_plan_id: uuid.UUID) -> Live:
    return _nowhere


class SheetFiles:
    """Writes each plan's files to a folder of its own, by date.

    Parameters
    ----------
    root
        The folder of all sheets.
    live
        By the key of a plan, where the live pages of its day are.
    language
        ISO 639-1 code of the language they are written in.
    """

    def __init__(self, root: Path, live: LiveOf = _no_live, *, language: str = SOURCE) -> None:
        self._root = root
        self._live = live
        self._language = language

    def folder(self, plan_id: uuid.UUID, made: Made) -> Path:
        """Where the files of a plan are."""
        return self._root / made.plan.date.isoformat() / str(plan_id)

    def write(self, plan_id: uuid.UUID, made: Made, whole: bool = True) -> None:
        """Write the files of a plan, in place of those there are; raise OSError if it cannot.

        Not ``whole``, without the PDF files: a first plan, which the next one soon replaces, is
        there sooner.
        """
        with speaking(self._language):
            write_sheet_files(self.folder(plan_id, made), made, self._live(plan_id), whole=whole)


def write_sheet_files(
    folder: Path, made: Made, live: Live = _nowhere, *, whole: bool = True
) -> None:
    """Write pages, PDFs, chart, plan file and sheet into ``folder``; raise OSError if it cannot.

    ``live`` gives the address of a cook's live page, for the code on the sheet; empty: none. Not
    ``whole``, there are no PDFs.

    Pages are in the language that is spoken (`web.language.speaking`).

    Each file is there wholly or not at all, and the first page comes last: whoever opens it finds
    what it links to.
    """
    folder.mkdir(parents=True, exist_ok=True)
    for name, content in _files(made, live, whole):
        write_whole(folder / name, content)


def _files(made: Made, live: Live, whole: bool) -> Iterator[tuple[str, str | bytes]]:
    sheet = made.sheet
    traces = read_traces(made.texts.traces)
    printed = dict(_printed(sheet, live)) if whole else {}
    links = replace(
        Links.files(),
        kitchen=INDEX,
        explained=frozenset(traces),
        more=tuple(Choice(one.title, name) for name, one in printed.items()),
    )
    yield from ((name, one.content) for name, one in printed.items())
    yield "plan.json", made.texts.document
    yield "sheet.json", made.texts.sheet
    yield "wall.svg", lane_chart_svg(sheet)
    yield "wall.html", render_wall(sheet, links, inline_style=True)
    yield WHY_FILE, render_whys(sheet, traces, links, inline_style=True)
    for cook in sheet.cooks:
        yield (
            cook_file(cook.cook),
            render_cook(sheet, cook.cook, links, inline_style=True, live=live(cook.cook)),
        )
    yield INDEX, render_kitchen(sheet, links, inline_style=True)


@dataclass(frozen=True, slots=True)
class _Printed:
    """A PDF file, and what links to it say."""

    title: str
    content: bytes


def _printed(sheet: KitchenSheet, live: Live) -> Iterator[tuple[str, _Printed]]:
    preferences = Preferences()
    paper = usual_paper(preferences)
    yield "sheets.pdf", _Printed(_("Sheets, PDF"), sheets_pdf(sheet, preferences, paper, live=live))
    yield "pull-list.pdf", _Printed(_("Pull list, PDF"), pull_list_pdf(sheet, preferences, paper))
    yield "wall.pdf", _Printed(_("Wall chart, PDF"), wall_pdf(sheet, preferences))
    labels = printed_labels(label_kinds(sheet, preferences), {})
    if labels:
        yield (
            "labels-roll.pdf",
            _Printed(_("Labels for a roll, PDF"), labels_pdf(sheet, labels, ROLL_62)),
        )
        stock = fitting_stock(labels, (A4_3X8, A4_2X7, A4_2X4))
        if stock is not None:
            yield (
                "labels-sheets.pdf",
                _Printed(_("Labels on sheets, PDF"), labels_pdf(sheet, labels, stock)),
            )
