"""Routes of what is printed of a plan: pages to print from, and PDF files."""

import re
from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import HTMLResponse, Response

from planner.sheet.types import KitchenSheet
from service.api.live import LiveDep
from service.api.pages import PageDep
from service.errors import Fault, InvalidError, NotFoundError
from web.language import _
from web.presenters.labels import LabelKind, PrintedLabel, label_kinds, printed_labels
from web.presenters.preferences import Preferences
from web.printing.files import labels_pdf, pull_list_pdf, sheets_pdf, usual_paper, wall_pdf
from web.printing.label import LabelRoomError
from web.printing.pages import MOST_LABELS, Wanted, render_labels, render_print, render_pull_list
from web.printing.paper import PAPERS, Paper
from web.printing.stock import A4_3X8, LETTER_3X10, STOCKS, LabelSheet

router = APIRouter(
    prefix="/plans/{plan_id}/print", include_in_schema=False, default_response_class=HTMLResponse
)

_MOST_COPIES = 99
_COPIES = "n."


def _paper(page: PageDep, paper: Annotated[str, Query(max_length=20)] = "") -> Paper:
    if not paper:
        return usual_paper(page.preferences)
    if paper not in PAPERS:
        raise InvalidError(
            Fault(
                "paper",
                paper,
                _("there is no such paper"),
                _("Choose one of: %(known)s", known=", ".join(PAPERS)),
            )
        )
    return PAPERS[paper]


PaperDep = Annotated[Paper, Depends(_paper)]


@router.get("")
def print_page(page: PageDep, live: LiveDep) -> HTMLResponse:
    """What can be printed."""
    return HTMLResponse(render_print(page.sheet, page.links, live=bool(live("cook"))))


@router.get("/pull-list")
def pull_list(page: PageDep) -> HTMLResponse:
    """The pull list by itself."""
    return HTMLResponse(render_pull_list(page.sheet, page.links, page.preferences))


@router.get("/sheets.pdf")
def sheets_file(
    page: PageDep,
    paper: PaperDep,
    live: LiveDep,
    cook: Annotated[str, Query(max_length=60)] = "",
) -> Response:
    """Sheets of all cooks, or of one."""
    if cook:
        _known(page.sheet, cook)
    made = sheets_pdf(page.sheet, page.preferences, paper, cook=cook, live=live)
    return _file(made, page.sheet, f"sheet-{cook}" if cook else "sheets")


@router.get("/pull-list.pdf")
def pull_list_file(page: PageDep, paper: PaperDep) -> Response:
    """The pull list."""
    return _file(pull_list_pdf(page.sheet, page.preferences, paper), page.sheet, "pull-list")


@router.get("/wall.pdf")
def wall_file(page: PageDep) -> Response:
    """The wall chart."""
    return _file(wall_pdf(page.sheet, page.preferences), page.sheet, "wall-chart")


@dataclass(frozen=True, slots=True)
class _Labels:
    """What is asked for, with the labels it comes to."""

    wanted: Wanted
    kinds: tuple[LabelKind, ...]
    labels: tuple[PrintedLabel, ...]


def _labels(
    request: Request,
    page: PageDep,
    stock: Annotated[str, Query(max_length=20)] = "",
    first: Annotated[int, Query(ge=1, le=99)] = 1,
    cook: Annotated[str, Query(max_length=60)] = "",
    only: Annotated[str, Query(max_length=90)] = "",
) -> _Labels:
    if stock and stock not in STOCKS:
        raise InvalidError(
            Fault(
                "stock",
                stock,
                _("there are no such labels"),
                _("Choose one of: %(known)s", known=", ".join(STOCKS)),
            )
        )
    paper = STOCKS[stock] if stock else _usual_stock(page.preferences)
    if isinstance(paper, LabelSheet) and first > paper.count:
        raise InvalidError(
            Fault(
                "first",
                str(first),
                _("the sheet has no such label"),
                _("Count the used ones row by row: 1 to %(count)s", count=paper.count),
            )
        )
    if cook:
        _known(page.sheet, cook)
    kinds = label_kinds(page.sheet, page.preferences, cook)
    copies = _copies(request, kinds)
    wanted = Wanted(paper, first, cook, only, tuple(copies.items()))
    chosen = tuple(kind for kind in kinds if only in ("", kind.key))
    if only and not chosen:
        raise NotFoundError(
            Fault(
                "only", only, _("this plan has no such label"), _("Choose one on the labels' page")
            )
        )
    labels = printed_labels(chosen, copies)
    if len(labels) > MOST_LABELS:
        raise InvalidError(
            Fault(
                "labels",
                str(len(labels)),
                _("no more than %(n)s are printed at once", n=MOST_LABELS),
                _("Print one cook's at a time"),
            )
        )
    return _Labels(wanted, kinds, labels)


LabelsDep = Annotated[_Labels, Depends(_labels)]


@router.get("/labels")
def labels_page(page: PageDep, asked: LabelsDep) -> HTMLResponse:
    """Choose labels and see them."""
    wrong = ""
    try:
        html = _labels_html(page, asked, wrong)
    except LabelRoomError as error:
        html = _labels_html(page, asked, str(error))
    return HTMLResponse(html)


@router.get("/labels.pdf")
def labels_file(page: PageDep, asked: LabelsDep) -> Response:
    """Labels on their paper."""
    if not asked.labels:
        raise NotFoundError(
            Fault("labels", "0", _("no label is asked for"), _("Choose some on the labels' page"))
        )
    try:
        made = labels_pdf(page.sheet, asked.labels, asked.wanted.stock, asked.wanted.first)
    except LabelRoomError as error:
        raise InvalidError(
            Fault("stock", asked.wanted.stock.id, _("a label has no room"), str(error))
        ) from None
    return _file(made, page.sheet, f"labels-{asked.wanted.stock.id}")


def _labels_html(page: PageDep, asked: _Labels, wrong: str) -> str:
    return render_labels(
        page.sheet,
        page.links,
        kinds=asked.kinds,
        labels=asked.labels,
        wanted=asked.wanted,
        wrong=wrong,
    )


def _copies(request: Request, kinds: tuple[LabelKind, ...]) -> dict[str, int]:
    """How many of each kind are asked for, where that is not the usual number."""
    usual = {kind.key: kind.usual for kind in kinds}
    copies = {}
    for name, value in request.query_params.items():
        key = name.removeprefix(_COPIES)
        # A cook who was chosen just now leaves the numbers of the others behind.
        if not name.startswith(_COPIES) or key not in usual:
            continue
        if not re.fullmatch(r"[0-9]{1,2}", value):
            raise InvalidError(
                Fault(
                    name,
                    value[:20],
                    _("this is no number of labels"),
                    _("Give a whole number from 0 to %(n)s", n=_MOST_COPIES),
                )
            )
        if int(value) != usual[key]:
            copies[key] = int(value)
    return copies


def _usual_stock(preferences: Preferences) -> LabelSheet:
    return LETTER_3X10 if preferences.units == "us" else A4_3X8


def _known(sheet: KitchenSheet, cook: str) -> None:
    if cook not in {each.cook for each in sheet.cooks}:
        known = ", ".join(each.cook for each in sheet.cooks)
        raise NotFoundError(
            Fault(
                "cook", cook, _("is not on this sheet"), _("Choose one of: %(known)s", known=known)
            )
        )


def _file(content: bytes, sheet: KitchenSheet, name: str) -> Response:
    safe = re.sub(r"[^\w.-]+", "-", name, flags=re.ASCII)
    return Response(
        content,
        media_type="application/pdf",
        headers={"Content-Disposition": f'attachment; filename="{safe}-{sheet.date}.pdf"'},
    )
