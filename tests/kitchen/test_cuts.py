"""The starter cuts."""

from planner.kitchen.cuts import STARTER_CUTS


def test_ids_are_unique_and_every_cut_says_where_it_comes_from() -> None:
    assert len({cut.id for cut in STARTER_CUTS}) == len(STARTER_CUTS)
    assert all(cut.note.endswith("common practice, no source") for cut in STARTER_CUTS)


def test_dice_are_cubes_from_three_quarters_down_to_a_sixteenth() -> None:
    sides = {cut.id: cut.inches for cut in STARTER_CUTS}
    ladder = ["large_dice", "medium_dice", "small_dice", "brunoise", "fine_brunoise"]
    assert [sides[cut] for cut in ladder] == [
        (side, side, side) for side in (3 / 4, 1 / 2, 1 / 4, 1 / 8, 1 / 16)
    ]


def test_a_stick_has_the_thickness_of_the_dice_it_is_cut_into() -> None:
    sides = {cut.id: cut.inches for cut in STARTER_CUTS}
    for stick, dice in (
        ("batonnet", "small_dice"),
        ("julienne", "brunoise"),
        ("fine_julienne", "fine_brunoise"),
    ):
        assert sides[stick][:2] == sides[dice][:2]
