"""The language of a page: gettext catalogues, and the one that is being written in.

A page is written in the language of whoever reads it. ``speaking`` sets it around the work of one
answer; presenters and templates then ask ``_`` and ``ngettext``. The catalogues are the ``.po``
files under ``web/locale``, read once: there is no compiled file that could be older than they are.
"""

import gettext as gnu
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cache
from io import BytesIO
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po

LANGUAGES = {"en": "English", "es": "Español"}
"""Languages by ISO 639-1 code, each named in itself."""
SOURCE = "en"
"""The language that the program's own texts are written in."""
DOMAIN = "prepwright"

_ANY = next(code for code in LANGUAGES if code != SOURCE)
_SAYING = ("planner/", "service/")
_LOCALE = Path(__file__).parent / "locale"
_spoken: ContextVar[str] = ContextVar("spoken", default=SOURCE)


@contextmanager
def speaking(language: str) -> Iterator[None]:
    """Write in ``language`` until the block ends.

    Raises
    ------
    KeyError
        It is not one of ``LANGUAGES``.
    """
    if language not in LANGUAGES:
        raise KeyError(language)
    token = _spoken.set(language)
    try:
        yield
    finally:
        _spoken.reset(token)


def language() -> str:
    """The ISO 639-1 code of the language that is written in."""
    return _spoken.get()


def gettext(message: str, /, **values: object) -> str:
    """``message`` in the language of the page, its ``%(name)s`` places filled with ``values``."""
    spoken = language()
    # Asked for thousands of times on a page, most of all in the source language.
    found = message if spoken == SOURCE else _catalogue(spoken).gettext(message)
    return found % values if values else found


def ngettext(one: str, many: str, number: int, /, **values: object) -> str:
    """The form of the message that ``number`` asks for; ``%(n)s`` is the number itself."""
    found = _catalogue(language()).ngettext(one, many, number)
    return found % {"n": number, **values}


def pgettext(context: str, message: str, /, **values: object) -> str:
    """``message`` where the same English word is another word elsewhere, by ``context``."""
    found = _catalogue(language()).pgettext(context, message)
    return found % values if values else found


_ = gettext


@cache
def sentences(code: str) -> tuple[tuple[str, str], ...]:
    """What planner and service say, with its translation; forms of a plural one by one.

    Words that are of pages alone are left out: a cook's own dish may be called as a button is. In
    the source's language each is its own translation; any catalogue lists them.
    """
    found: list[tuple[str, str]] = []
    for message in _read(code if code != SOURCE else _ANY):
        if not message.id or not any(
            place.startswith(_SAYING) for place, _line in message.locations
        ):
            continue
        if isinstance(message.id, str):
            found.append((message.id, str(message.string)))
        else:
            # One and many: of more forms the last is the one for most numbers.
            forms = tuple(message.string or ())
            found += [(message.id[0], forms[0]), (message.id[1], forms[-1])]
    if code == SOURCE:
        return tuple((text, text) for text, _said in found)
    return tuple((text, said) for text, said in found if said)


@cache
def _catalogue(code: str) -> gnu.NullTranslations:
    if code == SOURCE:
        return gnu.NullTranslations()
    compiled = BytesIO()
    write_mo(compiled, _read(code))
    compiled.seek(0)
    return gnu.GNUTranslations(compiled)


@cache
def _read(code: str) -> Catalog:
    path = _LOCALE / code / "LC_MESSAGES" / f"{DOMAIN}.po"
    with path.open("rb") as file:
        return read_po(file, locale=code, domain=DOMAIN, abort_invalid=True)
