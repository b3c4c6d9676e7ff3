"""Sentences of stored plans are said in the reader's language; what is not known stays."""

import time
from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from docs import catalogues
from planner.wording import counted, sentence
from web import sentences as module
from web.language import LANGUAGES, SOURCE, speaking
from web.patterns import Pattern, filled, places_of
from web.reading import Reading, read_as
from web.sentences import said

_OTHERS = sorted(set(LANGUAGES) - {SOURCE})
_KNOWN = (
    ("{what} is {n} min late", "{what} llega {n} min tarde"),
    ("{n} portion", "{n} porción"),
    ("{n} portions", "{n} porciones"),
    ("Holds up: {what}.", "Detiene: {what}."),
    ("{short} of {what}: nobody has it", "Nadie tiene {what}: {short}"),
    ("add an hour for {cook}", "agregar una hora a {cook}"),
    ("take {amount} of {what}", "tomar {what}: {amount}"),
    ("keep {amount} until {at}", "guardar {amount} hasta las {at}"),
    ("pull {pulled}", "sacar {pulled}"),
    ("done at {at}", "listo a las {at}"),
    ("hold at {warm}", "mantener a {warm}"),
    ("cold", "frío"),
)


@pytest.fixture
def known(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    caches = (module._exact, module._patterns, module._candidates, module._best)
    own = tuple((text, text) for text, _ in _KNOWN)
    monkeypatch.setattr(module, "sentences", lambda code: own if code == SOURCE else _KNOWN)
    for one in caches:
        one.cache_clear()
    with speaking("es"):
        yield
    for one in caches:
        one.cache_clear()


@pytest.mark.usefixtures("known")
@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("cold", "frío"),
        ("1 portion", "1 porción"),
        ("12 portions", "12 porciones"),
        # Of a place for a figure nothing else is taken.
        ("Onion portions", "Onion portions"),
        # Names stay, also with what joins sentences in them.
        ("Soup, thick is 5 min late", "Soup, thick llega 5 min tarde"),
        # A value may be a sentence, and places may change their order.
        ("20 portions of Soup: nobody has it", "Nadie tiene Soup: 20 porciones"),
        # One after the other, and joined.
        ("Soup is 5 min late. Holds up: A; B.", "Soup llega 5 min tarde. Detiene: A; B."),
        ("2 portions and 1 portion", "2 porciones y 1 porción"),
        ("Soup (12 portions)", "Soup (12 porciones)"),
        # What was put at the head of a line is known all the same.
        ("Add an hour for Ana: 3 portions.", "Agregar una hora a Ana: 3 porciones."),
        # Dates.
        ("Soup (Dinner, Thu 26 Nov)", "Soup (Dinner, jue 26 nov)"),
        ("", ""),
        ("  ", "  "),
        ("Thx 26 Nov", "Thx 26 Nov"),
    ],
)
def test_a_sentence_is_said(text: str, wanted: str) -> None:
    assert said(text) == wanted


def test_the_source_language_is_left_alone() -> None:
    assert said("Soup is 5 min late") == "Soup is 5 min late"


@pytest.mark.usefixtures("known")
@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("take 640 g of Salt", "tomar Salt: 1 lb 7 oz"),
        ("take 2 fl oz of Oil", "tomar Oil: 2 fl oz"),
        # What is pulled is never less: 500 g are 17.6 oz, the nearest half 17.5.
        ("pull 500 g", "sacar 1 lb 2 oz"),
        ("pull 4 each = 500 g", "sacar 4 each = 1 lb 2 oz"),
        ("done at 00:05", "listo a las 12:05 am"),
        ("done at +1 13:30", "listo a las +1 1:30 pm"),
        ("done at 06:05, Thu 26 Nov", "listo a las 6:05 am, jue 26 nov"),
        ("hold at 5 C (41 F)", "mantener a 41 °F (5 °C)"),
        ("hold at -18 C", "mantener a 0 °F (-18 °C)"),
        # Of a name, or of a kitchen's own line.
        ("take 640 g of Salt, 500 g", "tomar Salt, 500 g: 1 lb 7 oz"),
        ("Rest until 06:05: 500 g", "Rest until 06:05: 500 g"),
    ],
)
def test_figures_are_told_in_the_readers_units_and_on_their_clock(text: str, wanted: str) -> None:
    with read_as(Reading("es", "us", "12")):
        assert said(text) == wanted
    with read_as(Reading("en", "metric", "24")):
        assert said(text) == text


@pytest.mark.usefixtures("known")
def test_each_reader_is_told_in_their_own_way() -> None:
    """Texts are kept as they were said: by language, units and clock."""
    text = "keep 640 g until 13:00"
    told = {}
    for reading in (
        Reading("en", "us", "24"),
        Reading("en", "metric", "12"),
        Reading("es", "metric", "24"),
    ):
        with read_as(reading):
            told[said(text)] = reading
    assert list(told) == [
        "keep 1 lb 7 oz until 13:00",
        "keep 640 g until 1:00 pm",
        "guardar 640 g hasta las 13:00",
    ]


@pytest.mark.usefixtures("known")
def test_a_mass_of_a_reckoning_stands_by_itself() -> None:
    with read_as(Reading("en", "us", "24")):
        assert said("Soup, 500 g: 640 g = 600 g + 40 g", reckoning=True) == (
            "Soup, 500 g: 1 lb 7 oz = 1 lb 5 oz + 1.4 oz"
        )
        assert said("640 g of old", reckoning=True) == "1 lb 7 oz of old"


@pytest.mark.usefixtures("known")
def test_and_before_the_sound_of_i() -> None:
    assert said("1 portion and Icing") == "1 porción e Icing"
    assert said("1 portion and Hielo") == "1 porción y Hielo"


@given(st.text(max_size=200))
def test_any_text_comes_back(text: str) -> None:
    with speaking("es"):
        assert isinstance(said(text), str)


@pytest.mark.usefixtures("known")
@pytest.mark.parametrize(
    "text",
    [
        " and " * 700,
        "a, " * 1300,
        "1 of 1: nobody " * 250,
        ": " * 1900,
        "is 1 min late " * 280,
        "(" * 4000,
    ],
)
def test_no_text_takes_long(text: str) -> None:
    begun = time.perf_counter()
    said(text)
    # Generous: a search that goes back and forth would take longer than anyone waits.
    assert time.perf_counter() - begun < 20


def test_a_pattern_is_filled_and_found() -> None:
    assert sentence("{a} of {b}", a=1, b="x") == "1 of x"
    assert counted("{n} day", "{n} days", 1) == "1 day"
    assert counted("{n} day", "{n} days", 0) == "0 days"
    assert Pattern("{a} or {a}").match("x or y") is None
    assert Pattern("{a} or {a}").match("x or x") == {"a": "x"}
    assert Pattern("{{{a}}} b").match("{x} b") == {"a": "x"}
    assert not Pattern("{a}: {b}").says_something


def _value(place: str, index: int) -> str:
    """Words of no catalogue; where a figure, an amount or a time belongs, one of those."""
    kind = place.partition("_")[0]
    values = {
        "n": str(7 + index),
        "amount": f"6{index} g",
        "pulled": f"12 Zxq = 6{index} g",
        "at": f"06:1{index}",
        "warm": f"{index} C (4{index} F)",
    }
    return values.get(kind, f"{index + 2}" if kind == "numbers" else f"Zx{index}q")


@pytest.mark.parametrize("code", _OTHERS)
def test_every_pattern_is_found_again(code: str) -> None:
    """Whatever stands in its places: words that no catalogue has, and figures."""
    wrong = {}
    for message in catalogues.catalogue(code):
        ids = (message.id,) if isinstance(message.id, str) else message.id
        forms = (message.string,) if isinstance(message.id, str) else message.string
        for text, form in zip(ids, forms, strict=True):
            pattern = Pattern(text)
            if not form or not pattern.says_something:
                continue
            if not any(
                place.startswith(("planner/", "service/")) for place, _ in message.locations
            ):
                continue
            values = {
                place: _value(place, index)
                for index, place in enumerate(dict.fromkeys(places_of(text)))
            }
            with speaking(code):
                found = said(filled(text, values))
            if found != filled(form, values):
                wrong[text] = found
    assert wrong == {}
