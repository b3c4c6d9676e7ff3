"""What changes for whom, in the words each of the two cooks reads."""

from dataclasses import replace

from planner.sheet.types import CookSheet, KitchenSheet, SheetBatch
from tests.service.stubs import dicing
from tests.web.example import example_sheet
from web.chef.changes_view import CookChangesView, changes_view
from web.presenters.preferences import Preferences

ADA = dicing("ada", 1)
BEN = replace(ADA, cook="ben", cook_name="Ben", start=ADA.start + 30, grams_out=4500)


def _sheet(ada: tuple[SheetBatch, ...], ben: tuple[SheetBatch, ...]) -> KitchenSheet:
    cooks = tuple(
        CookSheet(cook, cook.title(), cook[0], 420, 900, (), (), (), batches, 0, 0, None)
        for cook, batches in (("ada", ada), ("ben", ben))
    )
    return replace(example_sheet(), cooks=cooks)


def _cooks(before: KitchenSheet, after: KitchenSheet) -> dict[str, CookChangesView]:
    return {cook.id: cook for cook in changes_view(before, after, Preferences()).cooks}


def test_a_move_reads_from_and_to_with_times_and_quantities() -> None:
    cooks = _cooks(_sheet((ADA,), ()), _sheet((), (BEN,)))
    (gives,), (takes,) = cooks["ada"].lines, cooks["ben"].lines
    assert (gives.kind, takes.kind) == ("To Ben", "From Ada")
    assert gives.title == takes.title == "Dice Onion"
    assert gives.time == takes.time == "07:27 → 07:57"
    assert gives.words == "3 kg → 4.5 kg"
    assert (cooks["ada"].kinds, cooks["ben"].kinds) == ("1 goes to others", "1 comes from others")


def test_new_gone_later_and_other_quantities_have_a_word_each() -> None:
    later = replace(ADA, start=ADA.start + 30)
    more = replace(ADA, grams_out=6000)
    for before, after, kind in (
        ((), (ADA,), "New"),
        ((ADA,), (), "Gone"),
        ((ADA,), (later,), "Later"),
        ((later,), (ADA,), "Earlier"),
        ((ADA,), (more,), "Other quantity"),
    ):
        (line,) = _cooks(_sheet(before, ()), _sheet(after, ()))["ada"].lines
        assert line.kind == kind


def test_whoever_keeps_all_is_named_and_told_so() -> None:
    view = changes_view(_sheet((ADA,), ()), _sheet((ADA,), ()), Preferences())
    assert view.summary == "Nothing changes for anybody"
    assert view.cooks[0].summary == "no change, 1 batch stays as it was"
    assert view.cooks[0].lines == ()
