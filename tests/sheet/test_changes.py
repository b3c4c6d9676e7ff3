"""What changes between two sheets is told to each cook it concerns, and nothing else is."""

from dataclasses import replace

from planner.sheet.batch_types import SheetBatch
from planner.sheet.changes import NOTICED, CookChanges, sheet_changes
from planner.sheet.types import CookSheet, KitchenSheet
from tests.service.stubs import dicing
from tests.web.example import example_sheet


def _sheet(**batches: tuple[SheetBatch, ...]) -> KitchenSheet:
    cooks = tuple(
        CookSheet(cook, cook.title(), cook[0], 420, 900, (), (), (), mine, 0, 0, None)
        for cook, mine in batches.items()
    )
    return replace(example_sheet(), cooks=cooks)


def _of(found: tuple[CookChanges, ...], cook: str) -> CookChanges:
    return next(one for one in found if one.cook == cook)


ONION = dicing("ada", 1)
LATER = replace(dicing("ada", 2), food_name="Leek")


def test_the_same_sheet_changes_nothing_for_anybody() -> None:
    sheet = example_sheet()
    found = sheet_changes(sheet, sheet)
    assert [one.changes for one in found] == [() for _ in sheet.cooks]
    assert sum(one.kept for one in found) == sum(len(one.batches) for one in sheet.cooks)


def test_a_batch_that_moves_is_told_to_both_cooks() -> None:
    moved = replace(ONION, cook="ben", cook_name="Ben")
    found = sheet_changes(_sheet(ada=(ONION, LATER), ben=()), _sheet(ada=(LATER,), ben=(moved,)))
    for cook in ("ada", "ben"):
        (change,) = _of(found, cook).changes
        assert change.moved
        assert (change.before, change.after) == (ONION, moved)
    assert (_of(found, "ada").kept, _of(found, "ben").kept) == (1, 0)


def test_new_and_gone_batches_are_told_to_the_one_they_concern() -> None:
    found = sheet_changes(_sheet(ada=(ONION,), ben=()), _sheet(ada=(LATER,), ben=()))
    changes = _of(found, "ada").changes
    assert [(one.before, one.after) for one in changes] == [(ONION, None), (None, LATER)]
    assert _of(found, "ben").changes == ()


def test_another_time_is_told_once_it_is_noticed() -> None:
    for minutes, told in ((NOTICED, False), (NOTICED + 1, True), (-NOTICED - 1, True)):
        shifted = replace(ONION, start=ONION.start + minutes)
        (cook,) = sheet_changes(_sheet(ada=(ONION,)), _sheet(ada=(shifted,)))
        assert [one.retimed for one in cook.changes] == ([True] if told else [])


def test_another_quantity_is_told_and_rounding_is_not() -> None:
    for factor, told in ((1.005, False), (1.2, True), (0.5, True)):
        other = replace(ONION, grams_out=ONION.grams_out * factor)
        (cook,) = sheet_changes(_sheet(ada=(ONION,)), _sheet(ada=(other,)))
        assert [one.resized for one in cook.changes] == ([True] if told else [])


def test_of_two_alike_the_same_cooks_and_the_closest_belong_together() -> None:
    early, late = ONION, replace(ONION, number=2, start=ONION.start + 300)
    bens = replace(ONION, cook="ben", cook_name="Ben")
    before = _sheet(ada=(early, late), ben=(bens,))
    after = _sheet(ada=(replace(late, number=1),), ben=(bens,))
    found = sheet_changes(before, after)
    assert [(one.before, one.after) for one in _of(found, "ada").changes] == [(early, None)]
    assert _of(found, "ben").kept == 1


def test_a_cook_of_one_sheet_only_is_named() -> None:
    found = sheet_changes(_sheet(ada=(ONION,)), _sheet(ben=()))
    assert [one.cook for one in found] == ["ada", "ben"]
