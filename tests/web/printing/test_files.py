"""The PDF files, read back by another library."""

from dataclasses import replace

import pytest
import segno

from planner.sheet.types import KitchenSheet, LeftOutItem, StraightItem
from tests.web.example import example_sheet, one_cook_sheet
from tests.web.example.long import BATCHES, long_sheet
from tests.web.printing.reading import open_pdf, sizes_of, squeezed, text_of
from web.language import speaking
from web.presenters.batches import batch_view
from web.presenters.labels import label_kinds, printed_labels
from web.presenters.preferences import Preferences
from web.presenters.pulls import pull_groups
from web.printing.codes import LEAST_CODE, code
from web.printing.cook import cook_pages
from web.printing.files import labels_pdf, pull_list_pdf, sheets_pdf, usual_paper, wall_pdf
from web.printing.paper import A4, LETTER, Paper
from web.printing.shapes import Box, Code, Rule, Text
from web.printing.stock import A4_3X8, ROLL_62
from web.printing.wall import wall_pages

METRIC = Preferences()
US = Preferences("us", 12)
ADDRESS = "https://192.0.2.20:8443/floor/copper-ladle/2027-03-09/cooks/"


def _live(cook: str) -> str:
    return f"{ADDRESS}{cook}"


class TestSheets:
    @pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.id)
    def test_pages_are_as_large_as_the_paper_and_few(self, paper: Paper) -> None:
        sheet = example_sheet()
        made = sheets_pdf(sheet, METRIC, paper, live=_live)
        sizes = sizes_of(made)
        assert set(sizes) == {(paper.width, paper.height)}
        assert len(sizes) <= 2 * len(sheet.cooks)

    def test_a_shift_of_43_batches_is_on_five_pages_at_most(self) -> None:
        sheet = long_sheet()
        assert len(sheet.cooks[0].batches) >= BATCHES
        for paper in (A4, LETTER):
            assert len(sizes_of(sheets_pdf(sheet, US, paper))) <= 5

    def test_every_cooks_pages_are_numbered_by_themselves(self) -> None:
        sheet = example_sheet()
        said = text_of(sheets_pdf(sheet, METRIC, A4))
        for cook in sheet.cooks:
            pages = len(cook_pages(sheet, cook, METRIC, A4))
            for number in range(1, pages + 1):
                assert f"{cook.name} {number}/{pages}" in said

    @pytest.mark.parametrize("sheet", [example_sheet(), long_sheet()], ids=["example", "long"])
    def test_all_that_a_cook_needs_of_every_batch_is_there(self, sheet: KitchenSheet) -> None:
        for cook in sheet.cooks:
            pages = cook_pages(sheet, cook, METRIC, A4)
            said = squeezed(
                " ".join(
                    shape.text for page in pages for shape in page.shapes if isinstance(shape, Text)
                )
            ).replace(" ·", "")
            for batch in cook.batches:
                view = batch_view(batch, METRIC)
                needed = [
                    view.title,
                    view.start.time,
                    view.until,
                    view.give_count or view.give,
                    view.temperature,
                    view.due,
                    view.late,
                    *view.notes,
                    *view.caution_words,
                    *(one.amount for one in view.takings),
                    *(line.cut.size for line in view.cuts),
                    *(one.component for one in view.labels),
                    *(one.use_by for one in view.labels),
                ]
                missing = [part for part in needed if squeezed(part) not in said]
                assert missing == [], batch.number

    def test_a_batch_is_not_parted_by_a_page(self) -> None:
        """A page after the first begins with its head, and then with a batch or a break."""
        sheet = long_sheet()
        numbers = {str(batch.number) for batch in sheet.cooks[0].batches}
        for page in cook_pages(sheet, sheet.cooks[0], METRIC, A4)[1:]:
            boxes = [shape for shape in page.shapes if isinstance(shape, Box)]
            texts = [shape for shape in page.shapes if isinstance(shape, Text)]
            tick = min(boxes, key=lambda box: box.y)
            above = [text for text in texts if text.y < tick.y]
            assert len(above) <= 2, "the head alone stands above the first box"
            assert any(text.text in numbers for text in texts)

    def test_nothing_leaves_the_paper_or_runs_into_the_foot(self) -> None:
        for sheet in (example_sheet(), long_sheet(), one_cook_sheet()):
            for cook in sheet.cooks:
                for page in cook_pages(sheet, cook, US, LETTER, _live(cook.cook)):
                    for shape in page.shapes:
                        assert shape.x >= 8
                        assert shape.y <= LETTER.height - LETTER.margin
                        if isinstance(shape, Box | Code):
                            wide = shape.size if isinstance(shape, Code) else shape.width
                            assert shape.x + wide <= LETTER.width - LETTER.margin + 0.1

    def test_a_cut_is_drawn_at_its_true_size(self) -> None:
        """Medium dice: 1/2 in. Source: `tests/web/example/book.py`, common practice."""
        sheet = example_sheet()
        cook = next(one for one in sheet.cooks if one.cook == "ines")
        sides = {
            (round(shape.width, 2), round(shape.height, 2))
            for page in cook_pages(sheet, cook, METRIC, A4)
            for shape in page.shapes
            if isinstance(shape, Box)
        }
        assert (12.7, 12.7) in sides

    def test_one_cooks_alone(self) -> None:
        said = text_of(sheets_pdf(example_sheet(), METRIC, A4, cook="nadia"))
        assert "Nadia Rehm" in said
        assert "Ines Marlo" not in said
        with pytest.raises(LookupError, match="nobody"):
            sheets_pdf(example_sheet(), METRIC, A4, cook="nobody")


class TestTheFile:
    def test_it_says_what_it_is_and_in_which_language(self) -> None:
        for language, what in (("en", "Prep sheets"), ("es", None)):
            with speaking(language):
                pdf = open_pdf(sheets_pdf(example_sheet(), METRIC, A4))
            assert pdf.root_object["/Lang"] == language
            assert pdf.metadata is not None
            title = str(pdf.metadata.title)
            assert example_sheet().kitchen in title
            assert what is None or title.startswith(what)
            # WCAG 2.2, technique PDF18: readers show the title in place of the file's name.
            assert pdf.root_object["/ViewerPreferences"]["/DisplayDocTitle"]

    def test_it_names_nobody(self) -> None:
        pdf = open_pdf(sheets_pdf(example_sheet(), METRIC, A4))
        assert pdf.metadata is not None
        assert not pdf.metadata.author

    def test_its_font_is_in_it(self) -> None:
        pdf = open_pdf(pull_list_pdf(example_sheet(), METRIC, A4))
        fonts = [
            font.get_object() for page in pdf.pages for font in page["/Resources"]["/Font"].values()
        ]
        assert fonts
        for font in fonts:
            inner = font["/DescendantFonts"][0].get_object()
            assert "DejaVuSansCondensed" in inner["/BaseFont"]
            assert "/FontFile2" in inner["/FontDescriptor"].get_object()

    def test_the_same_plan_gives_the_same_file(self) -> None:
        one, other = (wall_pdf(example_sheet(), METRIC) for _ in range(2))
        assert one == other

    def test_names_in_letters_of_any_language_are_text(self) -> None:
        sheet = replace(example_sheet(), kitchen="Cocina de Ñandú ½, Łódź")
        assert "Cocina de Ñandú ½, Łódź" in text_of(pull_list_pdf(sheet, METRIC, A4))

    def test_letter_is_usual_where_units_are_us(self) -> None:
        assert usual_paper(US) is LETTER
        assert usual_paper(METRIC) is A4


class TestPullList:
    def test_every_line_with_its_amount_is_there(self) -> None:
        sheet = example_sheet()
        said = text_of(pull_list_pdf(sheet, METRIC, A4))
        for group in pull_groups(sheet.pulls, METRIC):
            assert group.storage in said
            for line in group.lines:
                assert squeezed(line.name) in said
                assert squeezed(line.amount) in said

    def test_what_goes_straight_to_the_line_and_what_is_left_out_are_lists_of_their_own(
        self,
    ) -> None:
        straight = StraightItem("salt", "Flaky salt", 30.0, None, None, "Soup", 660, "dry", False)
        left = LeftOutItem("eel", "Smoked eel", 400.0, None, None, ("Eel toast, Lunch",))
        sheet = replace(example_sheet(), straight=(straight,), left_out=(left,))
        said = text_of(pull_list_pdf(sheet, METRIC, A4))
        for part in ("Flaky salt", "30 g", "On the line by 11:00", "Smoked eel", "Eel toast"):
            assert part in said

    def test_an_empty_one_says_so(self) -> None:
        said = text_of(pull_list_pdf(replace(example_sheet(), pulls=()), METRIC, A4))
        assert "Nothing is to be pulled." in said


class TestWallChart:
    def test_it_is_a3_sideways_with_every_lane(self) -> None:
        made = wall_pdf(example_sheet(), METRIC)
        assert set(sizes_of(made)) == {(420.0, 297.0)}
        said = text_of(made)
        for lane in example_sheet().lanes:
            assert lane.title.split()[0].split("-")[0] in said

    def test_nothing_leaves_the_paper(self) -> None:
        for sheet in (example_sheet(), long_sheet()):
            for page in wall_pages(sheet, US):
                for shape in page.shapes:
                    assert 0 <= shape.x <= page.width
                    assert 0 <= shape.y <= page.height
                    if isinstance(shape, Box):
                        assert shape.x + shape.width <= page.width - 9
                        assert shape.y + shape.height <= page.height - 9
                    if isinstance(shape, Rule):
                        assert max(shape.to_x, shape.x) <= page.width - 9

    def test_words_on_it_can_be_read_from_a_step_away(self) -> None:
        """A row's words are 9 pt or more on A3. Starting guess."""
        (page, *_) = wall_pages(example_sheet(), METRIC)
        sizes = [shape.size for shape in page.shapes if isinstance(shape, Text) and not shape.angle]
        assert min(size for size in sizes if size != 7.5) >= 9


class TestLabels:
    def test_sheet_and_roll_say_the_same(self) -> None:
        sheet = example_sheet()
        kinds = label_kinds(sheet, METRIC)
        labels = printed_labels(kinds, {})
        on_sheets, on_roll = (labels_pdf(sheet, labels, stock) for stock in (A4_3X8, ROLL_62))
        assert set(sizes_of(on_sheets)) == {(210.0, 297.0)}
        assert {width for width, _height in sizes_of(on_roll)} == {62.0}
        assert len(sizes_of(on_roll)) == len(labels)
        for said in (text_of(on_sheets), text_of(on_roll)):
            for kind in kinds:
                assert kind.food.split()[0] in said
                assert squeezed(f"Use by {kind.use_by},") in said


class TestCode:
    def test_it_is_large_enough_with_its_quiet_zone_and_leads_to_the_cooks_live_page(self) -> None:
        """Quiet zone 4 modules. Source: ISO/IEC 18004."""
        drawn = code(_live("mariaalessandra"), 0, 0)
        modules = len(drawn.rows)
        assert drawn.size == LEAST_CODE
        assert drawn.size * (modules - 8) / modules >= 20
        for row in (*drawn.rows[:4], *drawn.rows[-4:]):
            assert not any(row)
        assert all(not any(row[:4]) and not any(row[-4:]) for row in drawn.rows)
        wanted = segno.make(_live("mariaalessandra"), error="m", micro=False).matrix
        inner = tuple(bytes(row[4:-4]) for row in drawn.rows[4:-4])
        assert inner == tuple(bytes(row) for row in wanted)

    def test_it_stands_on_the_first_page_alone_and_only_where_there_is_an_address(self) -> None:
        sheet = example_sheet()
        cook = sheet.cooks[0]
        with_code = cook_pages(sheet, cook, METRIC, A4, _live(cook.cook))
        counts = [sum(isinstance(one, Code) for one in page.shapes) for page in with_code]
        assert counts == [1] + [0] * (len(with_code) - 1)
        without = cook_pages(sheet, cook, METRIC, A4)
        assert not any(isinstance(one, Code) for page in without for one in page.shapes)
