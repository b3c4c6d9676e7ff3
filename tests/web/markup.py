"""Reads pages the way a strict reader would: every element closed, in order."""

from dataclasses import dataclass, field
from html.parser import HTMLParser

_VOID = frozenset({"meta", "link", "input", "br", "hr", "img"})


@dataclass
class Page:
    """What a page holds, once read; ``faults`` are elements that do not balance."""

    faults: list[str] = field(default_factory=list)
    ids: list[str] = field(default_factory=list)
    attributes: list[tuple[str, str, str]] = field(default_factory=list)
    """(element, attribute, value)."""
    text: str = ""
    rows: list[tuple[int, int]] = field(default_factory=list)
    """Of each table row: columns it covers, columns of its table's first row."""


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.page = Page()
        self._open: list[str] = []
        self._columns: list[int] = []
        self._first: int | None = None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._note(tag, attrs)
        if tag not in _VOID:
            self._open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._note(tag, attrs)

    def handle_endtag(self, tag: str) -> None:
        if not self._open or self._open[-1] != tag:
            self.page.faults.append(f"</{tag}> closes {self._open[-3:]} at {self.getpos()}")
            return
        self._open.pop()
        if tag in ("td", "th"):
            self.page.text += " "
        if tag == "tr":
            columns = sum(self._columns)
            self._first = self._first if self._first is not None else columns
            self.page.rows.append((columns, self._first))
        if tag == "table":
            self._first = None

    def handle_data(self, data: str) -> None:
        if "style" not in self._open:
            self.page.text += data

    def close(self) -> None:
        super().close()
        if self._open:
            self.page.faults.append(f"left open: {self._open}")

    def _note(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = {name: value or "" for name, value in attrs}
        self.page.attributes += [(tag, name, value) for name, value in values.items()]
        if "id" in values:
            self.page.ids.append(values["id"])
        if tag == "tr":
            self._columns = []
        if tag in ("td", "th"):
            self._columns.append(int(values.get("colspan", "1")))


def read_page(text: str) -> Page:
    """Read a page; words between elements are joined by single spaces."""
    reader = _Reader()
    reader.feed(text)
    reader.close()
    reader.page.text = " ".join(reader.page.text.split())
    return reader.page
