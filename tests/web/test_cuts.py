"""Cuts in words, and drawn at their true size."""

import pytest

from planner.sheet.batch_types import SheetCut
from web.presenters.cuts import cut_size, cut_view, inch_fraction
from web.presenters.typography import BY


@pytest.mark.parametrize(
    ("sides", "text"),
    [
        ((), ""),
        ((0.25, 0.25, 0.25), "1/4 in (6 mm)"),
        ((0.0625, 0.0625, 0.0625), "1/16 in (1.6 mm)"),
        ((0.75, 0.75, 0.75), "3/4 in (19 mm)"),
        ((0.125, 0.125, 2.0), "1/8 x 1/8 x 2 in (3 x 3 x 51 mm)"),
        ((0.5, 0.5, 0.125), "1/2 x 1/2 x 1/8 in (13 x 13 x 3 mm)"),
        ((2.5,), "2 1/2 in (64 mm)"),
    ],
)
def test_sides_in_inches_and_millimetres(sides: tuple[float, ...], text: str) -> None:
    assert cut_size(sides) == text.replace(" x ", BY)


def test_what_is_no_sixteenth_is_written_as_a_decimal() -> None:
    assert inch_fraction(0.2) == "0.2"
    assert inch_fraction(1 / 3) == "0.33"


def test_a_dice_is_drawn_as_its_square_and_nothing_else() -> None:
    view = cut_view(SheetCut("Small dice", (0.25, 0.25, 0.25), ""))
    assert view.face is not None
    assert (view.face.width, view.face.height) == ("6.35", "6.35")
    assert view.side is None


def test_a_stick_is_drawn_with_its_length_too() -> None:
    view = cut_view(SheetCut("Julienne", (0.125, 0.125, 2.0), ""))
    assert view.side is not None
    assert (view.side.width, view.side.height) == ("50.80", "3.17")


def test_a_flat_cut_shows_its_broad_face() -> None:
    view = cut_view(SheetCut("Paysanne", (0.5, 0.5, 0.125), ""))
    assert view.face is not None
    assert view.face.width == "12.70"
    assert view.side is None


def test_a_cut_without_set_size_is_not_drawn() -> None:
    view = cut_view(SheetCut("Mince", (), "as fine as the knife goes"))
    assert view.face is None
    assert view.size == ""


def test_the_source_of_a_cut_stays_in_the_kitchen_file() -> None:
    note = "2 to 2 1/2 in long; common practice, no source"
    assert cut_view(SheetCut("Batonnet", (0.25, 0.25, 2.0), note)).note == "2 to 2 1/2 in long"


def test_only_a_large_face_has_room_for_words() -> None:
    assert cut_view(SheetCut("Medium dice", (0.5, 0.5, 0.5), "")).holds_words
    assert not cut_view(SheetCut("Small dice", (0.25, 0.25, 0.25), "")).holds_words
    assert not cut_view(SheetCut("Mince", (), "")).holds_words
