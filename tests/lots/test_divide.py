"""How a stage's needs become lots: even, no larger than the vessel, wave by wave."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.lots.divide import Division, divide
from planner.lots.stages import Portion, StageNeed
from planner.quantities.types import Making, Reason, Want

NOON = 12 * 60


def need(
    grams: float,
    due: int = NOON,
    *,
    release: int = 0,
    missing: tuple[str, ...] = (),
    last_step: int = 1,
    fresh_from: int | None = None,
    gives: float = 1.0,
) -> StageNeed:
    """A need for ``grams`` going in, of which ``gives`` comes out."""
    out = grams * gives
    want = Want(Reason.DISH, "plate", "Plate", out, out, 0.0, due, due + 120, due, 0)
    making = Making(want, out, 0, last_step, due, due + 120, finishes=True)
    portion = Portion("ham", making, 0, out, (), (), ((0, release),), missing)
    return StageNeed(portion, 0, grams, out, fresh_from)


def sizes(lots: list[Division]) -> list[float]:
    return [round(lot.grams_in, 6) for lot in lots]


def test_what_fits_the_vessel_is_one_lot() -> None:
    assert sizes(divide([need(900)], 1000)) == [900]


def test_what_does_not_fit_is_split_evenly() -> None:
    """Three of 800 g, not two full ones and a small rest."""
    assert sizes(divide([need(2400)], 1000)) == [800, 800, 800]


def test_nothing_bounds_it_makes_one_lot_of_any_size() -> None:
    assert sizes(divide([need(90_000)], math.inf)) == [90_000]


def test_needs_due_within_a_wave_share_even_lots_in_their_order() -> None:
    lots = divide([need(500, NOON), need(1000, NOON + 60)], 800)
    assert sizes(lots) == [750, 750]
    assert [[(s.need.due, round(s.grams_in)) for s in lot.slices] for lot in lots] == [
        [(NOON, 500), (NOON + 60, 250)],
        [(NOON + 60, 750)],
    ]


def test_waves_are_not_mixed_where_they_do_not_fit_one_lot() -> None:
    """Lunch and dinner: the second lot would be ready for nobody but dinner."""
    lots = divide([need(700, NOON), need(700, NOON + 360)], 1000)
    assert sizes(lots) == [700, 700]
    assert [len(lot.slices) for lot in lots] == [1, 1]


def test_a_later_wave_joins_where_both_fit_one_lot() -> None:
    assert sizes(divide([need(400, NOON), need(500, NOON + 360)], 1000)) == [900]


def test_fresh_food_for_dinner_is_not_made_with_that_for_lunch() -> None:
    dinner = need(100, NOON + 360, fresh_from=NOON + 120)
    assert sizes(divide([need(100, NOON, fresh_from=NOON - 240), dinner], 1000)) == [100, 100]


def test_fresh_food_is_made_together_where_it_is_fresh_for_both() -> None:
    dinner = need(100, NOON + 360, fresh_from=NOON - 60)
    assert sizes(divide([need(100, NOON, fresh_from=NOON - 240), dinner], 1000)) == [200]


def test_freshness_is_kept_even_within_a_wave() -> None:
    soon = need(100, NOON + 60, fresh_from=NOON + 30)
    assert sizes(divide([need(100, NOON, fresh_from=NOON - 30), soon], 1000)) == [100, 100]


def test_food_that_waits_for_a_delivery_never_shares_a_lot_with_food_that_is_there() -> None:
    assert sizes(divide([need(100), need(100, release=600)], 1000)) == [100, 100]


def test_food_nobody_has_never_shares_a_lot_with_food_that_is_there() -> None:
    assert sizes(divide([need(100), need(100, missing=("pork",))], 1000)) == [100, 100]


def test_food_that_goes_on_today_never_shares_a_lot_with_food_that_stops_here() -> None:
    assert sizes(divide([need(100, last_step=1), need(100, last_step=2)], 1000)) == [100, 100]


def test_what_comes_out_follows_each_needs_own_yield() -> None:
    (lot,) = divide([need(100, gives=0.5), need(100, gives=0.9)], 1000)
    assert lot.grams_out == pytest.approx(140)


NEEDS = st.lists(
    st.builds(
        need,
        st.floats(1, 5000),
        st.sampled_from((NOON, NOON + 45, NOON + 360)),
        release=st.sampled_from((0, 600)),
        missing=st.sampled_from(((), (), ("pork",))),
        fresh_from=st.sampled_from((None, NOON - 240, NOON + 120)),
        gives=st.sampled_from((0.5, 1.0, 2.0)),
    ),
    min_size=1,
    max_size=8,
)


@given(NEEDS, st.floats(50, 5000))
def test_every_gram_is_in_one_lot_that_fits(needs: list[StageNeed], largest: float) -> None:
    lots = divide(needs, largest)
    slices = [part for lot in lots for part in lot.slices]
    for each in needs:
        mine = [part for part in slices if part.need is each]
        assert sum(part.grams_in for part in mine) == pytest.approx(each.grams_in, abs=1e-6)
        assert sum(part.grams_out for part in mine) == pytest.approx(each.grams_out, abs=1e-5)
    for lot in lots:
        assert lot.grams_in <= largest + 1e-3
        kinds = {(p.need.portion.release, p.need.portion.missing) for p in lot.slices}
        assert len(kinds) == 1


@given(NEEDS, st.floats(50, 5000))
def test_every_lot_can_be_fresh_for_all_in_it(needs: list[StageNeed], largest: float) -> None:
    for lot in divide(needs, largest):
        fresh = [p.need.fresh_from for p in lot.slices if p.need.fresh_from is not None]
        alone = len(lot.slices) == 1
        assert alone or not fresh or max(fresh) <= min(p.need.due for p in lot.slices)
