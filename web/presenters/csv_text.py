"""Rows as a file for a spreadsheet. Source of the form: RFC 4180."""

import csv
import io
from collections.abc import Iterable, Sequence

_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def csv_text(heads: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """The rows under their heads."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(heads)
    writer.writerows(rows)
    return out.getvalue()


def plain_text(written: str) -> str:
    """What people wrote, so that no spreadsheet takes it for a formula."""
    return f"'{written}" if written.startswith(_FORMULA) else written
