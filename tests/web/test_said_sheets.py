"""Sheets of the seed kitchens, said: in Spanish no sentence of the program stays English, and in US
units and on the 12 h clock no figure of it stays metric or on the 24 h clock."""

import re
from collections.abc import Iterator

import pytest

from planner.kitchen.document import Kitchen
from planner.kitchen.foods import Allergen, RawAnimal
from planner.plan import Plan
from planner.quantities.types import Reason, Trace
from planner.sheet import value_words
from planner.sheet.build import build_sheet
from planner.why import explained
from tests.kitchens.seeds import planned_seed
from web.language import LANGUAGES, speaking
from web.reading import Reading, read_as
from web.sentences import said

_ENGLISH = re.compile(
    r"\b(?:the|of|and|is|are|to|for|with|from|by|at|in|on|it|its|not|use|after|before|until|"
    r"batch|portions?|expected|more|than|be|needed|made|make|day|left|less|take|takes|out|short|"
    r"late|minutes|cooks?|delivery|whole|pull|yield|nothing|wanted)\b",
    re.IGNORECASE,
)
_METRIC = re.compile(r"\d k?g\b|\b[012]\d:\d\d\b(?! [ap]m)|\b0\d:\d\d")
_CODE = "FDA Food Code"


def _kitchens_words(kitchen: Kitchen) -> tuple[str, ...]:
    """Names, the longest first, so that none is taken out of the midst of another."""
    lists = (
        kitchen.components,
        kitchen.ingredients,
        kitchen.dishes,
        kitchen.operations,
        kitchen.stations,
        kitchen.equipment,
        kitchen.cooks,
        kitchen.services,
    )
    names = {getattr(one, "name", "") for group in lists for one in group}
    names |= {one.container for one in kitchen.components if one.container}
    names |= {one.supplier for one in kitchen.deliveries if one.supplier}
    names |= {one.skill for one in kitchen.operations} | {_CODE}
    names |= {name.lower() for name in names}
    return tuple(sorted(filter(None, names), key=len, reverse=True))


def _kitchens_notes(kitchen: Kitchen) -> set[str]:
    """Sentences that the kitchen wrote itself."""
    return (
        {one.note for component in kitchen.components for one in component.route if one.note}
        | {component.note for component in kitchen.components if component.note}
        | {one.guidance for one in kitchen.operations if one.guidance}
    )


def _texts(kitchen: Kitchen, plan: Plan) -> Iterator[str]:
    sheet = build_sheet(kitchen, plan)
    yield from (*sheet.alerts, *sheet.troubles, *sheet.remedies, *sheet.ahead)
    yield from (one.relaxation for one in sheet.objective)
    yield from (pull.note for pull in sheet.pulls if pull.note)
    for cook in sheet.cooks:
        yield from cook.set_up
        yield from (pull.note for pull in cook.pulls if pull.note)
        for batch in cook.batches:
            yield from (*batch.cautions, *batch.notes, batch.place)
            yield from batch.allergens
    yield from _reckonings(kitchen, plan)


def _reckonings(kitchen: Kitchen, plan: Plan) -> Iterator[str]:
    for trace in explained(kitchen, plan).values():
        yield from _lines(trace)


def _lines(trace: Trace) -> Iterator[str]:
    yield trace.text
    for child in trace.children:
        yield from _lines(child)


@pytest.mark.parametrize("name", ["small", "demo"])
def test_no_sentence_of_a_sheet_stays_english(name: str) -> None:
    kitchen, plan = planned_seed(name)
    names, notes = _kitchens_words(kitchen), _kitchens_notes(kitchen)
    left: dict[str, str] = {}
    with speaking("es"):
        for text in dict.fromkeys(_texts(kitchen, plan)):
            if text in notes:
                continue
            told = found = said(text)
            for one in names:
                told = told.replace(one, "")
            if _ENGLISH.search(told):
                left[text] = found
    assert left == {}


@pytest.mark.parametrize("language", sorted(LANGUAGES))
@pytest.mark.parametrize("name", ["small", "demo"])
def test_no_figure_of_a_sheet_stays_metric_or_on_the_24_h_clock(name: str, language: str) -> None:
    kitchen, plan = planned_seed(name)
    notes, reckonings = _kitchens_notes(kitchen), set(_reckonings(kitchen, plan))
    changed, left = 0, {}
    with read_as(Reading(language, "us", "12")):
        for text in dict.fromkeys(_texts(kitchen, plan)):
            told = said(text, reckoning=text in reckonings)
            changed += told != text
            if text in notes:
                assert told == text
            elif _METRIC.search(told):
                left[text] = told
    assert left == {}
    assert changed > 50


@pytest.mark.parametrize("name", ["small", "demo"])
def test_what_the_kitchen_wrote_stays_as_it_wrote_it(name: str) -> None:
    kitchen, _plan = planned_seed(name)
    names = {one.name for group in (kitchen.components, kitchen.dishes) for one in group}
    with read_as(Reading("es", "us", "12")):
        changed = {
            text: said(text) for text in (*_kitchens_notes(kitchen), *names) if said(text) != text
        }
    assert changed == {}


def test_words_of_closed_lists_are_all_in_the_catalogues() -> None:
    assert set(value_words.ALLERGENS) == {str(one) for one in Allergen}
    animals = {str(one) for one in RawAnimal}
    assert set(value_words.RAW_ANIMALS) == animals | {f"raw {one}" for one in animals}
    own = {Reason.PAR, Reason.BATCH, Reason.DAYS}
    assert set(value_words.REASONS) == {str(one) for one in own}
