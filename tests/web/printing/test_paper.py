"""Rows on pages, and words in lines."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from web.printing.fonts import printable, text_width
from web.printing.paper import A4, LETTER, Row, joined, pages_of
from web.printing.shapes import Box, Text
from web.printing.words import Run, cut_short, wrapped, wrapped_text


def _row(height: float, with_next: bool = False) -> Row:
    return Row(height, (Box(0, 0, 10, height),), with_next)


def _boxes(page: object) -> list[Box]:
    return [shape for shape in page.shapes if isinstance(shape, Box)]  # type: ignore[attr-defined]


def test_what_belongs_together_goes_to_the_next_page_together() -> None:
    tall = joined([_row(40) for _ in range(3)])
    pages = pages_of([_row(A4.depth - 60), *tall], A4, "Ada")
    assert [len(_boxes(page)) for page in pages] == [1, 3]


def test_what_is_longer_than_a_page_is_parted_and_nothing_is_lost() -> None:
    pages = pages_of(joined([_row(50) for _ in range(12)]), A4, "Ada")
    assert sum(len(_boxes(page)) for page in pages) == 12
    for page in pages:
        assert max(box.y + box.height for box in _boxes(page)) <= A4.margin + A4.depth + 0.01


def test_pages_are_numbered_by_whose_they_are() -> None:
    pages = pages_of([_row(200), _row(200)], A4, "Ada")
    marks = [
        shape.text
        for page in pages
        for shape in page.shapes
        if isinstance(shape, Text) and shape.bold
    ]
    assert marks == ["Ada 1/2", "Ada 2/2"]


def test_the_head_is_there_again_on_every_page_after_the_first() -> None:
    def again() -> Row:
        return Row(5, (Text(0, 3, "again", 9),))

    pages = pages_of([_row(200) for _ in range(3)], LETTER, "Ada", again)
    heads = [
        sum(isinstance(shape, Text) and shape.text == "again" for shape in page.shapes)
        for page in pages
    ]
    assert heads == [0, 1, 1]


@given(
    st.lists(st.tuples(st.floats(1, 320), st.booleans(), st.floats(0, 5)), min_size=1, max_size=60)
)
def test_every_row_is_on_a_page_once_in_order_and_below_the_one_before(
    rows: list[tuple[float, bool, float]],
) -> None:
    made = [
        Row(height, (Box(number, 0, 1, height),), with_next, gap)
        for number, (height, with_next, gap) in enumerate(rows)
    ]
    pages = pages_of(made, A4, "Ada")
    found = [box for page in pages for box in _boxes(page)]
    assert [round(box.x - A4.margin) for box in found] == list(range(len(rows)))
    for page in pages:
        boxes = _boxes(page)
        for above, below in pairwise(boxes):
            assert below.y >= above.y + above.height - 1e-6
        if len(boxes) > 1:
            assert boxes[-1].y + boxes[-1].height <= A4.margin + A4.depth + 1e-6


@given(st.text(max_size=200), st.floats(8, 120), st.floats(6, 18), st.booleans())
def test_lines_are_never_wider_than_their_room(
    text: str, width: float, points: float, bold: bool
) -> None:
    for line in wrapped_text(text, width, points, bold):
        assert len(line) == 1 or text_width(line, points, bold) <= width + 1e-6


def test_no_word_is_lost_in_wrapping() -> None:
    runs = [Run("Dice", bold=True), Run("onions fine, then sweat"), Run("12 min", bold=True)]
    lines = wrapped(runs, 20, 9)
    assert len(lines) > 1
    said = " ".join(run.text for line in lines for run in line)
    assert said == "Dice onions fine, then sweat 12 min"
    assert {run.text: run.bold for line in lines for run in line}["Dice"]


def test_spanish_letters_and_fractions_are_in_the_font_and_others_are_not_lost_unseen() -> None:
    shown = "ñÑáéíóúü¿¡ ½ ¼ ⅓ ⅛ → ° Łódź Ελλάδα"
    assert printable(shown) == shown
    assert printable("豚 a\tb") == "□ a b"


def test_what_has_no_room_ends_in_an_ellipsis() -> None:
    assert cut_short("Ada", 50, 9) == "Ada"
    assert cut_short("Maria-Alessandra van den Oosterveld", 20, 9).endswith("…")
