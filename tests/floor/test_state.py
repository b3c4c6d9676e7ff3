"""The fold of ticks: one truth, whatever the order, however often each is sent."""

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.floor.state import floor_of
from planner.floor.ticks import Act, Tick, Weighed, Weight


def tick(key: str, act: Act, at: float, **more: object) -> Tick:
    return Tick(key, act, at, "ana", ("1:dice",), **more)  # type: ignore[arg-type]


ACTS = st.sampled_from([Act.BEGUN, Act.DONE, Act.HEARD, Act.PROBLEM, Act.WEIGHED, Act.TAKEN_BACK])


@st.composite
def days(draw: st.DrawFn) -> list[Tick]:
    found: list[Tick] = []
    for number in range(draw(st.integers(0, 12))):
        act = draw(ACTS)
        found.append(
            Tick(
                key=f"k{number}",
                act=act,
                at=draw(st.integers(400, 410)),
                cook=draw(st.sampled_from(["ana", "ben"])),
                tasks=tuple(draw(st.sets(st.sampled_from(["a", "b", "c"]), min_size=1))),
                reason="knife" if act is Act.PROBLEM else "",
                weight=Weight(Weighed.TRIM, 500, 100) if act is Act.WEIGHED else None,
                takes_back=f"k{draw(st.integers(0, 12))}" if act is Act.TAKEN_BACK else "",
            )
        )
    return found


@given(days(), st.randoms(use_true_random=False))
def test_order_and_repeats_of_arrival_do_not_matter(day: list[Tick], dice: random.Random) -> None:
    again = [*day, *dice.sample(day, len(day) // 2)]
    dice.shuffle(again)
    assert floor_of(again) == floor_of(day)


@given(days())
def test_no_weight_is_lost_unless_it_is_taken_back(day: list[Tick]) -> None:
    gone = {one.takes_back for one in day if one.act is Act.TAKEN_BACK}
    sent = {one.key for one in day if one.act is Act.WEIGHED} - gone
    assert {one.said.key for one in floor_of(day).weighings} == sent


def test_two_phones_that_tick_one_batch_end_in_one_truth() -> None:
    first, second = tick("p", Act.DONE, 600.0), tick("q", Act.DONE, 601.5)
    assert floor_of([second, first]).of("1:dice").done == floor_of([first]).of("1:dice").done
    undone = tick("r", Act.TAKEN_BACK, 602, takes_back="p")
    still = floor_of([first, second, undone]).of("1:dice").done
    assert still is not None
    assert still.key == "q"
    both = [first, second, undone, tick("s", Act.TAKEN_BACK, 603, takes_back="q")]
    assert floor_of(both).of("1:dice").done is None


def test_what_is_begun_after_it_was_done_is_not_begun_again() -> None:
    state = floor_of([tick("p", Act.DONE, 600), tick("q", Act.BEGUN, 605)]).of("1:dice")
    assert state.begun is None
    assert state.done is not None


def test_net_weight_is_without_the_cup() -> None:
    assert Weight(Weighed.TRIM, 640, 140).net_grams == pytest.approx(500)
