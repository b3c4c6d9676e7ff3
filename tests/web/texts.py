"""What people read of a page: its text nodes, and the attributes that are read out or shown."""

import re
from collections.abc import Iterator, Sequence
from functools import cache
from html.parser import HTMLParser

from docs.catalogues import catalogue

_READ = frozenset({"aria-label", "title", "placeholder", "data-head", "alt"})
_CODE = frozenset({"script", "style"})
STOPS = " ,;:."
ENGLISH = re.compile(
    r"\b(?:the|of|and|is|are|was|with|from|not|this|that|than|batch(?:es)?|covers|plans?d|late)\b",
    re.IGNORECASE,
)
"""Words that a Spanish sentence has only where part of it was forgotten."""
_PLACE = re.compile(r"%\(\w+\)s|\{\w+\}")


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


def kitchen_words(document: object) -> set[str]:
    """All that a kitchen file calls something by."""
    return {text.casefold().strip(STOPS) for text in _strings(document)}


def without(data: set[str], text: str) -> str:
    """``text`` without what the kitchen calls its own things, the longest first."""
    known = "|".join(re.escape(one) for one in sorted(data, key=len, reverse=True))
    return re.sub(rf"(?<!\w)(?:{known})(?!\w)", " ", text, flags=re.IGNORECASE)


def left_in_english(page: str, data: set[str], language: str) -> list[str]:
    """Texts of a page that are the program's own and stand there as in the code.

    Wholly: a text of the catalogue whose translation is another. In part: a sentence with words
    that only English has.
    """
    whole, filled = _own(language)

    def left(text: str) -> bool:
        if text.casefold().strip(STOPS) in data:
            return False
        if text.strip(STOPS) in whole:
            return True
        # What the kitchen says is taken out before its sentence is judged.
        bare = without(data, text)
        return bool(ENGLISH.search(bare)) or any(one.fullmatch(bare) for one in filled)

    return sorted({text for text in read_texts(page) if left(text)})


@cache
def _own(language: str) -> tuple[frozenset[str], tuple[re.Pattern[str], ...]]:
    """English texts that are otherwise in ``language``: those without places, and the others."""
    texts: dict[str, str] = {}
    for message in catalogue(language):
        if message.id:
            ids = (message.id,) if isinstance(message.id, str) else message.id
            strings = (message.string,) if isinstance(message.string, str) else message.string
            texts |= dict(zip(ids, (strings[0], strings[-1]), strict=False))
    translated = " ".join(texts.values())
    spoken = set(re.findall(r"\w+", translated.casefold()))
    # A word of both languages, as "plan", says nothing.
    other = {one for one, said in texts.items() if one != said and _words(one) - spoken}
    said = set(texts.values())
    whole = {one.replace("%%", "%").strip(STOPS) for one in other if not _PLACE.search(one)}
    return (
        frozenset(whole - {one.strip(STOPS) for one in said}),
        tuple(_pattern(one) for one in other if _PLACE.search(one)),
    )


def _words(text: str) -> set[str]:
    return set(re.findall(r"[^\W\d_]{2,}", _PLACE.sub(" ", text).casefold()))


def _pattern(text: str) -> re.Pattern[str]:
    parts: Sequence[str] = _PLACE.split(text.replace("%%", "%"))
    return re.compile(".+".join(re.escape(part) for part in parts), re.DOTALL)


def _strings(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for one in value.values():
            yield from _strings(one)
    elif isinstance(value, list):
        for one in value:
            yield from _strings(one)
