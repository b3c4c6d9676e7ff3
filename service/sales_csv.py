"""Sales history from a CSV file (RFC 4180): date, service, dish, count, and where known ran_out."""

import csv
import datetime as dt
import io
from collections.abc import Iterator

from planner.forecast.history import History, HistoryError, HistoryFault, Sale, history_of

COLUMNS = ("date", "service", "dish", "count")
RAN_OUT = "ran_out"
"""A column that may be left out."""
_YES, _NO = ("yes", "y", "true", "1"), ("", "no", "n", "false", "0")
_MOST_FAULTS = 20


def read_sales(data: bytes) -> History:
    """The history that a file holds.

    Raises
    ------
    planner.forecast.history.HistoryError
        It cannot be used; names line, field, value and remedy of each fault, the first twenty.
    """
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise HistoryError(
            [HistoryFault(0, "file", f"byte {error.start}", "it is not UTF-8", "Save it as UTF-8")]
        ) from None
    reader = csv.reader(io.StringIO(text, newline=""))
    heads = [name.strip().lower() for name in next(reader, [])]
    missing = [name for name in COLUMNS if name not in heads]
    if missing:
        raise HistoryError(
            [
                HistoryFault(
                    1,
                    "columns",
                    ", ".join(heads),
                    f"there is no {' and no '.join(missing)}",
                    f"Begin the file with: {','.join(COLUMNS)}",
                )
            ]
        )
    faults: list[HistoryFault] = []
    sales = list(_sales(reader, heads, faults))
    if not sales and not faults:
        faults.append(
            HistoryFault(0, "file", "", "it has no line of sales", "Add a line for each dish sold")
        )
    try:
        history = history_of(sales)
    except HistoryError as error:
        faults += error.faults
    if faults:
        raise HistoryError(sorted(faults, key=lambda one: one.line)[:_MOST_FAULTS])
    return history


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
                    f"it has {len(row)} fields, not {len(heads)}",
                    "Give it as many as the first line has",
                )
            )
            continue
        cells = {name: cell.strip() for name, cell in zip(heads, row, strict=False)}
        date, count = _date(cells["date"]), _count(cells["count"])
        if date is None:
            faults.append(
                HistoryFault(line, "date", cells["date"], "it is no date", "Write it as 2026-03-31")
            )
        if count is None:
            faults.append(
                HistoryFault(
                    line, "count", cells["count"], "it is no whole number", "Write it as 12"
                )
            )
        ran_out = cells.get(RAN_OUT, "").lower()
        if ran_out not in (*_YES, *_NO):
            faults.append(
                HistoryFault(line, RAN_OUT, cells[RAN_OUT], "it is no answer", "Write yes or no")
            )
        if date is not None and count is not None:
            yield Sale(date, cells["service"], cells["dish"], count, line, ran_out in _YES)


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
