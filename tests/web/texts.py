"""What people read of a page: its text nodes, and the attributes that are read out or shown."""

from html.parser import HTMLParser

_READ = frozenset({"aria-label", "title", "placeholder", "data-head", "alt"})
_CODE = frozenset({"script", "style"})


class _Texts(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.found: list[str] = []
        self._code = False
        self._foreign = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._code = tag in _CODE
        values = dict(attrs)
        # A language's own name is the same on every page.
        self._foreign = self._foreign or int(tag == "a" and "hreflang" in values)
        self.found += [value for name, value in attrs if name in _READ and value]

    def handle_endtag(self, tag: str) -> None:
        self._code = False
        if tag == "a":
            self._foreign = 0

    def handle_data(self, data: str) -> None:
        if not self._code and not self._foreign:
            self.found.append(data)


def read_texts(page: str) -> list[str]:
    """Every text of a page that somebody reads or hears, spaces made single, the empty left out."""
    reader = _Texts()
    reader.feed(page)
    reader.close()
    return [text for one in reader.found if (text := " ".join(one.split()))]
