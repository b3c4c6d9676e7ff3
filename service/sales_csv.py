"""Sales history from a CSV file (RFC 4180): date, service, dish, count, and where known ran_out."""

import csv
import datetime as dt
import io
from collections.abc import Iterable, Iterator

from planner.forecast.history import History, HistoryError, HistoryFault, Sale, history_of
from planner.wording import sentence
from web.presenters.csv_text import csv_text

COLUMNS = ("date", "service", "dish", "count")
RAN_OUT = "ran_out"
"""A column that may be left out: nothing is said of it then."""
_YES, _NO = ("yes", "y", "true", "1"), ("", "no", "n", "false", "0")
_MOST_FAULTS = 20


def read_sales(data: bytes) -> History:
    """The history that a file holds; raises as ``read_lines``."""
    return history_of(read_lines(data))


def read_lines(data: bytes) -> list[Sale]:
    """The lines that a file holds, which make a history.

    Raises
    ------
    planner.forecast.history.HistoryError
        It cannot be used; names line, field, value and remedy of each fault, the first twenty.
    """
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise HistoryError(
            [
                HistoryFault(
                    0,
                    "file",
                    f"byte {error.start}",
                    sentence("it is not UTF-8"),
                    sentence("Save it as UTF-8"),
                )
            ]
        ) from None
    reader = csv.reader(io.StringIO(text, newline=""))
    try:
        heads = [name.strip().lower() for name in next(reader, [])]
    except csv.Error:
        heads = []
    missing = [name for name in COLUMNS if name not in heads]
    if missing:
        raise HistoryError(
            [
                HistoryFault(
                    1,
                    "columns",
                    ", ".join(heads),
                    sentence("the first line has no {missing}", missing=" and no ".join(missing)),
                    sentence("Begin the file with: {columns}", columns=",".join(COLUMNS)),
                )
            ]
        )
    faults: list[HistoryFault] = []
    sales: list[Sale] = []
    try:
        sales += _sales(reader, heads, faults)
    except csv.Error:
        faults.append(
            HistoryFault(
                reader.line_num,
                "line",
                "",
                sentence("it is no line of a CSV file"),
                sentence("Save the file as CSV anew, and look for quotation marks that do not end"),
            )
        )
    if not sales and not faults:
        faults.append(
            HistoryFault(
                0,
                "file",
                "",
                sentence("it has no line of sales"),
                sentence("Add a line for each dish sold"),
            )
        )
    try:
        history_of(sales)
    except HistoryError as error:
        faults += error.faults
    if faults:
        raise HistoryError(sorted(faults, key=lambda one: one.line)[:_MOST_FAULTS])
    return sales


def sales_csv(sales: Iterable[Sale]) -> str:
    """The file of these lines, which ``read_lines`` reads."""
    rows = (
        (
            sale.date.isoformat(),
            sale.service,
            sale.dish,
            sale.count,
            _YES[0] if sale.ran_out else _NO[1],
        )
        for sale in sales
    )
    return csv_text((*COLUMNS, RAN_OUT), rows)


def _sales(
    reader: Iterator[list[str]], heads: list[str], faults: list[HistoryFault]
) -> Iterator[Sale]:
    for line, row in enumerate(reader, start=2):
        if not any(cell.strip() for cell in row):
            continue
        if len(row) < len(heads):
            faults.append(
                HistoryFault(
                    line,
                    "line",
                    ",".join(row),
                    sentence("it has {n} fields, not {n_wanted}", n=len(row), n_wanted=len(heads)),
                    sentence("Give it as many as the first line has"),
                )
            )
            continue
        cells = {name: cell.strip() for name, cell in zip(heads, row, strict=False)}
        date, count = _date(cells["date"]), _count(cells["count"])
        if date is None:
            faults.append(
                HistoryFault(
                    line,
                    "date",
                    cells["date"],
                    sentence("it is no date"),
                    sentence("Write it as 2026-03-31"),
                )
            )
        if count is None:
            faults.append(
                HistoryFault(
                    line,
                    "count",
                    cells["count"],
                    sentence("it is no whole number"),
                    sentence("Write it as 12"),
                )
            )
        answer = cells.get(RAN_OUT, "").lower()
        if answer not in (*_YES, *_NO):
            faults.append(
                HistoryFault(
                    line,
                    RAN_OUT,
                    cells[RAN_OUT],
                    sentence("it is no answer"),
                    sentence("Write yes or no"),
                )
            )
        ran_out = answer in _YES if RAN_OUT in cells else None
        if date is not None and count is not None:
            yield Sale(date, cells["service"], cells["dish"], count, line, ran_out)


def _date(text: str) -> dt.date | None:
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        return None


def _count(text: str) -> int | None:
    try:
        value = float(text)
    except ValueError:
        return None
    return int(value) if value.is_integer() else None
