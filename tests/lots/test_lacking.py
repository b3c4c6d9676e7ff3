"""Food that cannot be made, carried on to what is made of it."""

import pytest

from tests.kitchens.bench import (
    File,
    bench,
    cut_from,
    day,
    dish,
    food,
    lots_of,
    raw,
    recipe,
    service,
    stock,
    work,
    workload,
)


def leeks(on_hand: str) -> File:
    """Ten bowls want a kilo of leeks, melted by recipe in pots of 600 g; half of it butter."""
    return bench(
        ingredients=[food("leek"), food("butter")],
        operations=[work("trim"), work("melt", lot_limit="1200 g")],
        components=[
            cut_from("leek", "trimmed", "trim"),
            recipe("melted", "1 kg", {"trimmed": "500 g", "butter": "500 g"}, "melt"),
        ],
        dishes=[dish("bowl", {"melted": "200 g"})],
        raw_stock=[raw("leek", on_hand), raw("butter", "10 kg")],
    )


def possible(file: File, operation: str) -> list[tuple[int, bool]]:
    """(grams, whether it can be made) of an operation's lots."""
    made = workload(file)
    return sorted(
        (round(lot.grams_out), not made.problem.jobs[lot.index].impossible)
        for lot in lots_of(made, operation)
    )


def test_with_enough_of_it_every_lot_can_be_made() -> None:
    assert possible(leeks("1 kg"), "melt") == [(1000, True), (1000, True)]


def test_what_lacks_raw_food_holds_up_no_pot_that_has_its_own() -> None:
    """For 700 g of a kilo, 1.4 kg are melted; the pot for the rest is one of its own."""
    found = possible(leeks("700 g"), "melt")
    assert sum(grams for grams, ok in found if ok) == 1400
    assert sum(grams for grams, ok in found if not ok) == 600


def test_it_is_said_what_raw_food_is_lacking_however_far_down() -> None:
    made = workload(leeks("700 g"))
    reasons = {made.problem.jobs[lot.index].impossible for lot in lots_of(made, "melt")}
    assert reasons == {"", "no Leek"}


def test_finished_food_on_hand_is_for_what_can_be_made() -> None:
    """300 g trimmed yesterday and 400 g of raw leeks: 700 g once more."""
    file = leeks("400 g")
    file["prepared"] = [stock("trimmed", "300 g")]
    assert sum(grams for grams, ok in possible(file, "melt") if ok) == 1400


def test_what_is_ready_in_the_brine_is_not_mixed_with_what_should_have_been_brined() -> None:
    """Two kilos are brined, one more is wanted tonight and takes a night: the two are roasted."""
    file = bench(
        ingredients=[food("pork")],
        operations=[work("brine", unattended_minutes=900), work("roast")],
        components=[cut_from("pork", "ham", "brine", "roast")],
        dishes=[dish("plate", {"ham": "300 g"})],
        prepared=[stock("ham", "2 kg", after_step=1)],
    )
    assert sorted(round(lot.grams_out) for lot in lots_of(workload(file), "roast")) == [1000, 2000]


def test_raw_food_goes_first_to_work_that_can_still_be_ready() -> None:
    """A kilo of pork: tonight's ham needed a night in the brine; tomorrow's has it."""
    file = bench(
        ingredients=[food("pork")],
        operations=[work("brine", unattended_minutes=900), work("roast")],
        components=[cut_from("pork", "ham", "brine", "roast")],
        dishes=[dish("plate", {"ham": "100 g"})],
        services=[service("tonight", {"plate": 1.0}), service("feast", {"plate": 1.0}, ahead=1)],
        raw_stock=[raw("pork", "1 kg", received=day(0))],
        rules={"lookahead_days": 1},
    )
    made = workload(file)
    brined = lots_of(made, "brine")
    assert {(lot.missed, bool(made.problem.jobs[lot.index].impossible)) for lot in brined} == {
        (False, False),
        (True, True),
    }


@pytest.mark.parametrize(("count", "largest"), [(1, 1000), (3, 3000), (8, 4000)])
def test_a_lot_spreads_over_no_more_vessels_than_there_are(count: int, largest: int) -> None:
    file = bench(
        ingredients=[food("beet")],
        operations=[
            work("roast", minutes_per=1, equipment=[{"equipment": "rack", "max_units": 4}])
        ],
        components=[cut_from("beet", "roasted", "roast")],
        dishes=[dish("plate", {"roasted": "1.2 kg"})],
        equipment=[{"id": "rack", "name": "Rack", "count": count, "holds": "1 kg"}],
    )
    made = workload(file)
    assert max(lot.grams_in for lot in made.lots) == pytest.approx(12_000 / -(-12_000 // largest))
    assert all(hold.units <= count for hold in made.problem.holds)


def test_what_cannot_be_made_for_want_of_one_thing_holds_back_nothing_else() -> None:
    """A kilo of cream; the sauce comes first and has no mushrooms, so the mousse gets all of it."""
    file = bench(
        ingredients=[food("cream"), food("mushroom")],
        operations=[work("mix")],
        components=[
            recipe("sauce", "1 kg", {"cream": "500 g", "mushroom": "500 g"}, "mix"),
            recipe("mousse", "1 kg", {"cream": "1 kg"}, "mix"),
        ],
        dishes=[dish("pasta", {"sauce": "100 g"}), dish("sweet", {"mousse": "100 g"})],
        services=[
            service("lunch", {"pasta": 1.0}, opens="12:00", closes="15:00"),
            service("dinner", {"sweet": 1.0}),
        ],
        raw_stock=[raw("cream", "1 kg")],
    )
    assert possible(file, "mix") == [(1000, False), (1000, True)]
    made = workload(file)
    reasons = {lot.component: made.problem.jobs[lot.index].impossible for lot in made.lots}
    assert reasons["mousse"] == ""
    assert "Mushroom" in reasons["sauce"]


def test_what_a_dish_cannot_be_served_without_keeps_its_other_food_for_others() -> None:
    """Lunch's plate has no ham; the kilo of leaves goes to dinner, whose plate takes nothing else.

    Both components of the lunch plate are for it alone, and still its leaves step back.
    """
    file = bench(
        ingredients=[food("leaf"), food("pork")],
        operations=[work("wash"), work("cut")],
        components=[cut_from("leaf", "leaves", "wash"), cut_from("pork", "ham", "cut")],
        dishes=[
            dish("plate", {"leaves": "100 g", "ham": "50 g"}),
            dish("salad", {"leaves": "100 g"}),
        ],
        services=[
            service("lunch", {"plate": 1.0}, opens="12:00", closes="15:00"),
            service("dinner", {"salad": 1.0}),
        ],
        raw_stock=[raw("leaf", "1 kg")],
    )
    made = workload(file)
    served = {
        service_: not made.problem.jobs[lot.index].impossible
        for lot in lots_of(made, "wash")
        for service_, _, _ in lot.dishes
    }
    assert served == {"lunch": False, "dinner": True}


def test_a_pot_of_what_is_on_hand_takes_nothing_that_should_have_begun_yesterday() -> None:
    """One step on: two kilos of ham are in the brine, one is not; pies take all three."""
    file = bench(
        ingredients=[food("pork")],
        operations=[work("brine", unattended_minutes=900), work("roast"), work("bake")],
        components=[
            cut_from("pork", "ham", "brine", "roast"),
            recipe("pie", "1 kg", {"ham": "1 kg"}, "bake"),
        ],
        dishes=[dish("plate", {"pie": "300 g"})],
        prepared=[stock("ham", "2 kg", after_step=1)],
        rules={"lot_minutes": 120},
    )
    assert sorted(round(lot.grams_out) for lot in lots_of(workload(file), "bake")) == [1000, 2000]
