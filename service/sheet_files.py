"""Sheets as files that open by themselves, without a server: to print, to send, to keep."""

import uuid
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from service.documents import read_traces
from service.planning import Made
from service.whole_files import write_whole
from web.language import SOURCE, speaking
from web.links import WHY_FILE, Links, cook_file
from web.pages import lane_chart_svg, render_cook, render_kitchen, render_wall, render_whys

INDEX = "index.html"


class SheetFiles:
    """Writes each plan's files to a folder of its own, by date.

    Parameters
    ----------
    root
        The folder of all sheets.
    language
        ISO 639-1 code of the language they are written in.
    """

    def __init__(self, root: Path, *, language: str = SOURCE) -> None:
        self._root = root
        self._language = language

    def folder(self, plan_id: uuid.UUID, made: Made) -> Path:
        """Where the files of a plan are."""
        return self._root / made.plan.date.isoformat() / str(plan_id)

    def write(self, plan_id: uuid.UUID, made: Made) -> None:
        """Write the files of a plan, in place of those there are; raise OSError if it cannot."""
        with speaking(self._language):
            write_sheet_files(self.folder(plan_id, made), made)


def write_sheet_files(folder: Path, made: Made) -> None:
    """Write pages, chart, plan file and sheet into ``folder``; raise OSError if it cannot.

    Pages are in the language that is spoken (`web.language.speaking`).

    Each file is there wholly or not at all, and the first page comes last: whoever opens it finds
    what it links to.
    """
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in _files(made):
        write_whole(folder / name, text)


def _files(made: Made) -> Iterator[tuple[str, str]]:
    sheet = made.sheet
    traces = read_traces(made.texts.traces)
    links = replace(Links.files(), kitchen=INDEX, explained=frozenset(traces))
    yield "plan.json", made.texts.document
    yield "sheet.json", made.texts.sheet
    yield "wall.svg", lane_chart_svg(sheet)
    yield "wall.html", render_wall(sheet, links, inline_style=True)
    yield WHY_FILE, render_whys(sheet, traces, links, inline_style=True)
    for cook in sheet.cooks:
        yield cook_file(cook.cook), render_cook(sheet, cook.cook, links, inline_style=True)
    yield INDEX, render_kitchen(sheet, links, inline_style=True)
