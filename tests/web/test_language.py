"""Texts in the language of the page, and a Spanish catalogue that lacks nothing."""

import re

import pytest
from babel.messages.catalog import Catalog, Message

from docs import catalogues
from web.language import LANGUAGES, SOURCE, _, language, ngettext, speaking

_PLACES = re.compile(r"%\((\w+)\)[sd]|(?<!\{)\{(\w+)[^{}]*\}")
_OTHERS = sorted(set(LANGUAGES) - {SOURCE})


def _forms(text: str | tuple[str, ...] | list[str]) -> tuple[str, ...]:
    return (text,) if isinstance(text, str) else tuple(text)


def _places(text: str) -> set[str]:
    return {first or second for first, second in _PLACES.findall(text)}


def _known(found: Catalog, message: Message) -> Message | None:
    return found.get(message.id, context=message.context)


@pytest.mark.parametrize("code", _OTHERS)
def test_every_text_has_its_translation(code: str) -> None:
    found = catalogues.catalogue(code)
    missing = [
        message.id
        for message in catalogues.texts()
        if message.id
        and ((known := _known(found, message)) is None or not all(_forms(known.string)))
    ]
    assert missing == [], "run python docs/catalogues.py and translate what is new"


@pytest.mark.parametrize("code", _OTHERS)
def test_nothing_translated_is_gone_from_the_code(code: str) -> None:
    template = catalogues.texts()
    gone = [
        message.id
        for message in catalogues.catalogue(code)
        if message.id and _known(template, message) is None
    ]
    assert gone == [], "run python docs/catalogues.py"


@pytest.mark.parametrize("code", _OTHERS)
def test_a_translation_has_the_places_of_its_text(code: str) -> None:
    wrong = {}
    for message in catalogues.catalogue(code):
        wanted = set().union(*(_places(form) for form in _forms(message.id)))
        for form in filter(None, _forms(message.string)):
            # The singular may say "one" without its figure.
            if _places(form) != wanted and not (message.pluralizable and _places(form) < wanted):
                wrong[message.id] = form
    assert wrong == {}


@pytest.mark.parametrize("code", _OTHERS)
def test_a_translation_ends_as_its_text_does(code: str) -> None:
    ends = (".", ":", "?", "!", " ")
    wrong = {}
    for message in catalogues.catalogue(code):
        for text, form in zip(_forms(message.id), _forms(message.string), strict=False):
            differs = [end for end in ends if text.endswith(end) != form.endswith(end)]
            if text and form and differs:
                wrong[text] = form
    assert wrong == {}


def test_a_page_is_written_in_the_language_it_is_asked_for() -> None:
    assert language() == "en"
    with speaking("es"):
        assert language() == "es"
        assert _("next day") == "al día siguiente"
    assert _("next day") == "next day"


def test_places_are_filled_in_either_language() -> None:
    assert _("%(n)s days later", n=2) == "2 days later"
    with speaking("es"):
        assert _("%(n)s days later", n=2) == "2 días después"


def test_a_number_chooses_its_form() -> None:
    assert ngettext("%(n)s thing", "%(n)s things", 1) == "1 thing"
    assert ngettext("%(n)s thing", "%(n)s things", 0) == "0 things"


def test_an_unknown_language_is_an_error() -> None:
    with pytest.raises(KeyError, match="xx"), speaking("xx"):
        pass
