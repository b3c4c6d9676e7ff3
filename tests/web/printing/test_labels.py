"""Labels: what they say, that no word leaves its label, and where they stand on the sheet."""

import datetime as dt
from collections.abc import Iterator
from dataclasses import replace

import pytest

from planner.kitchen import safety
from planner.sheet.types import KitchenSheet
from tests.web.example import example_sheet
from tests.web.example.long import long_sheet
from tests.web.printing.reading import squeezed
from web.language import speaking
from web.presenters.labels import (
    LabelKind,
    PrintedLabel,
    amount_words,
    label_date,
    label_kinds,
    printed_labels,
)
from web.presenters.preferences import Preferences
from web.printing.fonts import text_width
from web.printing.label import LEAST_POINTS, LabelRoomError, label_in
from web.printing.labels import fitting_stock, label_pages
from web.printing.shapes import Page, Rule, Text
from web.printing.stock import A4_2X4, A4_3X8, LETTER_3X10, ROLL_62, STOCKS, LabelSheet

METRIC = Preferences()
US = Preferences("us", 12)
ALLERGENS = "milk, eggs, fish, crustacean shellfish, tree nuts, wheat, peanuts, soybeans, sesame"
"""The nine that US law calls major. Source: 21 U.S.C. 321(qq)."""
SHEETS = [stock for stock in STOCKS.values() if isinstance(stock, LabelSheet)]


def _labels(sheet: KitchenSheet, preferences: Preferences = METRIC) -> tuple[PrintedLabel, ...]:
    return printed_labels(label_kinds(sheet, preferences), {})


def _kind(**changes: object) -> LabelKind:
    kind = LabelKind(
        key="ada.4.1",
        cook="ada",
        cook_name="Ada",
        batch=4,
        food="Onion soup base",
        amount="9.4 kg",
        container="third pan",
        usual=3,
        made="Thu 26 Nov, planned 11:40",
        use_by="Sat 28 Nov",
        allergens="milk",
        initials="A",
        storage="cold",
    )
    return replace(kind, **changes)  # type: ignore[arg-type]


def _texts(page: Page) -> list[Text]:
    return [shape for shape in page.shapes if isinstance(shape, Text)]


def _words(page: Page) -> str:
    return squeezed(" ".join(text.text for text in _texts(page)))


class TestWhatALabelSays:
    def test_every_batch_with_a_container_has_its_labels_one_for_each(self) -> None:
        sheet = example_sheet()
        labels = _labels(sheet)
        wanted = [
            (cook.cook, batch.number, output.label.containers or 1)
            for cook in sheet.cooks
            for batch in cook.batches
            for output in batch.outputs
            if output.label is not None
        ]
        assert wanted, "the example has labels"
        for cook, number, count in wanted:
            mine = [one for one in labels if (one.kind.cook, one.kind.batch) == (cook, number)]
            assert len(mine) >= count
            assert {one.of for one in mine} <= {one.kind.usual for one in mine}

    def test_all_that_the_trade_needs_is_on_it(self) -> None:
        """Food, quantity, made, use-by, initials, allergens, storage, batch: common practice, no
        source; the date is that of FDA Food Code 3-501.17."""
        label = PrintedLabel(_kind(), 2, 3)
        (page,) = label_pages([label], ROLL_62)
        for part in (
            "Onion soup base",
            "9.4 kg in all, third pan 2 of 3",
            "Made Thu 26 Nov, planned 11:40, A",
            "Use by Sat 28 Nov, end of day",
            "Allergens: milk",
            "Keep cold, batch 4",
        ):
            assert part in _words(page)

    def test_seven_days_are_counted_from_the_day_of_preparation(self) -> None:
        """FDA Food Code 3-501.17(A): 7 days at most at 5 C or below, the day of preparation being
        day 1. What is prepared on 1 October is eaten or thrown away by 7 October."""
        assert safety.use_by(dt.date(2026, 10, 1), 7) == dt.date(2026, 10, 7)
        assert label_date(dt.date(2026, 10, 7)) == "Wed 7 Oct"

    def test_the_month_is_in_letters_in_every_language(self) -> None:
        with speaking("es"):
            assert "oct" in label_date(dt.date(2026, 10, 7))

    def test_food_without_a_declared_allergen_says_so(self) -> None:
        kinds = label_kinds(example_sheet(), METRIC)
        assert any(kind.allergens == "none declared" for kind in kinds)
        assert all(kind.allergens for kind in kinds)

    def test_amounts_are_in_the_readers_units(self) -> None:
        metric, us = (label_kinds(example_sheet(), how) for how in (METRIC, US))
        assert any("kg" in kind.amount for kind in metric)
        assert not any("kg" in kind.amount for kind in us)
        assert any("pm" in kind.made for kind in us)

    def test_a_single_container_is_not_counted(self) -> None:
        assert amount_words(PrintedLabel(_kind(), 1, 1)) == "9.4 kg, third pan"
        assert amount_words(PrintedLabel(_kind(container=""), 1, 1)) == "9.4 kg"


class TestChoosing:
    def test_one_cooks(self) -> None:
        sheet = example_sheet()
        kinds = label_kinds(sheet, METRIC, "nadia")
        assert kinds
        assert {kind.cook for kind in kinds} == {"nadia"}

    def test_how_many_of_each(self) -> None:
        labels = printed_labels((_kind(), _kind(key="ada.5.1", usual=1)), {"ada.4.1": 2})
        assert [(one.kind.key, one.number, one.of) for one in labels] == [
            ("ada.4.1", 1, 2),
            ("ada.4.1", 2, 2),
            ("ada.5.1", 1, 1),
        ]

    def test_none_of_one(self) -> None:
        assert printed_labels((_kind(),), {"ada.4.1": 0}) == ()


def _cases() -> Iterator[tuple[str, tuple[PrintedLabel, ...]]]:
    for name, sheet in (("example", example_sheet()), ("long", long_sheet())):
        for units, preferences in (("metric", METRIC), ("us", US)):
            yield f"{name}-{units}", _labels(sheet, preferences)
    hard = _kind(
        food="Roast beet, goat cheese and hazelnut salad base, for the banquet upstairs",
        allergens=ALLERGENS,
        amount="about 1200 each, 104 lb 12 oz",
        container="perforated half pan",
        storage="frozen",
    )
    yield "hard", (PrintedLabel(hard, 10, 12),)
    yield "one word", (PrintedLabel(_kind(food="Pneumono" * 9), 1, 1),)


CASES = list(_cases())


@pytest.mark.parametrize(("name", "labels"), CASES, ids=[name for name, _labels in CASES])
class TestNoWordLeavesItsLabel:
    @pytest.mark.parametrize("stock", SHEETS, ids=lambda stock: stock.id)
    @pytest.mark.parametrize("language", ["en", "es"])
    def test_on_sheets(
        self, name: str, labels: tuple[PrintedLabel, ...], stock: LabelSheet, language: str
    ) -> None:
        del name
        with speaking(language):
            pages = label_pages(labels, stock)
        assert pages
        for page in pages:
            for shape in _texts(page):
                right = shape.x + text_width(shape.text, shape.size, shape.bold)
                column = int((shape.x - stock.left) // (stock.width + stock.gap))
                row = int((shape.y - stock.top) // stock.height)
                x, y = stock.corner(row * stock.columns + column)
                assert shape.x >= x + stock.inset_x - 0.01
                assert right <= x + stock.width - stock.inset_x + 0.01, shape.text
                # Capitals reach about 0.76 em up, tails 0.24 em down. From memory, of the font.
                em = shape.size * 25.4 / 72
                assert shape.y - 0.76 * em >= y + stock.inset_y - 0.2, shape.text
                assert shape.y + 0.24 * em <= y + stock.height - stock.inset_y + 0.3, shape.text
                assert shape.size >= LEAST_POINTS

    def test_on_the_roll(self, name: str, labels: tuple[PrintedLabel, ...]) -> None:
        del name
        pages = label_pages(labels, ROLL_62)
        assert len(pages) == len(labels)
        for page in pages:
            assert page.width == 62
            assert page.height % 5 == 0
            for shape in _texts(page):
                right = shape.x + text_width(shape.text, shape.size, shape.bold)
                assert right <= page.width - ROLL_62.inset + 0.01
                assert shape.y <= page.height - ROLL_62.inset

    def test_nothing_is_cut_short(self, name: str, labels: tuple[PrintedLabel, ...]) -> None:
        """Word for word, though a word wider than the label is broken."""
        del name
        for page, label in zip(label_pages(labels, ROLL_62), labels, strict=True):
            said = _words(page).replace(" ", "")
            for part in (label.kind.food, label.kind.allergens, label.kind.use_by):
                assert part.replace(" ", "") in said


class TestTheSheet:
    def test_grids_lie_on_their_paper_and_are_even(self) -> None:
        for stock in SHEETS:
            x, y = stock.corner(stock.count - 1)
            right = stock.page_width - (x + stock.width)
            bottom = stock.page_height - (y + stock.height)
            assert right == pytest.approx(stock.left, abs=0.15), stock.id
            assert bottom == pytest.approx(stock.top, abs=0.5), stock.id

    def test_words_keep_off_the_edge_of_the_paper(self) -> None:
        """A printer leaves about 4 mm blank. From memory."""
        for stock in SHEETS:
            assert stock.left + stock.inset_x >= 4
            assert stock.top + stock.inset_y >= 4

    def test_a_half_used_sheet_begins_where_labels_are_left(self) -> None:
        label = PrintedLabel(_kind(), 1, 1)
        (page,) = label_pages([label], A4_3X8, 5)
        first = _texts(page)[0]
        assert (first.x, first.y) > (70 + 5, 37)
        assert first.x == pytest.approx(70 + 5)
        assert 0.5 + 37 < first.y < 0.5 + 2 * 37

    def test_a_full_sheet_goes_on_with_the_next(self) -> None:
        labels = [PrintedLabel(_kind(), number, 30) for number in range(1, 31)]
        pages = label_pages(labels, A4_3X8, 20)
        assert len(pages) == 3
        assert sum(_words(page).count("Onion soup base") for page in pages) == 30
        assert [_words(page).count("Onion soup base") for page in pages] == [5, 24, 1]

    def test_a_position_that_is_not_on_the_sheet_is_refused(self) -> None:
        with pytest.raises(ValueError, match="1 to 24"):
            label_pages([PrintedLabel(_kind(), 1, 1)], A4_3X8, 25)

    def test_words_without_room_are_an_error_that_says_what_to_do(self) -> None:
        with pytest.raises(LabelRoomError, match=r"Onion soup base .* larger labels or the roll"):
            label_in(PrintedLabel(_kind(), 1, 1), 20, 8)

    def test_the_first_sheet_with_room_for_all_is_found(self) -> None:
        crowded = _kind(food="Very long names of food, and long again, " * 8)
        labels = [PrintedLabel(crowded, 1, 1)]
        assert fitting_stock([PrintedLabel(_kind(), 1, 1)], SHEETS) is A4_3X8
        assert fitting_stock(labels, (LETTER_3X10, A4_2X4)) is A4_2X4
        assert fitting_stock(labels, (LETTER_3X10,)) is None

    def test_a_rule_parts_the_food_from_its_date(self) -> None:
        (page,) = label_pages([PrintedLabel(_kind(), 1, 1)], A4_3X8)
        (rule,) = [shape for shape in page.shapes if isinstance(shape, Rule)]
        food, use_by = _texts(page)[:2]
        assert food.y < rule.y < use_by.y
