"""The chain behind what is late goes back to the start of the day, each link touching the next."""

import pytest

from planner.explain.late import late_chains
from planner.explain.words import Morning
from planner.morning import PlanOptions, plan_morning
from planner.whatif.changes import with_covers
from tests.explain.test_words import ham, morning_of, roast
from tests.kitchens.bench import cook, delivery, work
from tests.kitchens.seeds import planned_seed


def test_nothing_is_late() -> None:
    assert late_chains(morning_of(ham())) == ()


def test_a_trim_a_roast_and_a_cut_from_the_shift_to_the_plate() -> None:
    """Trim 30 from 08:00, roast 1 + 59 + 1, cut 60: done at 10:31, due at 10:00."""
    file = ham(
        "trim",
        "roast",
        "cut",
        operations=[work("trim", minutes_per=5), roast(), work("cut")],
        equipment=[{"id": "oven", "name": "Oven", "count": 1}],
        service={"opens": "10:00"},
    )
    (chain,) = late_chains(morning_of(file))
    assert chain.minutes == 31
    assert "31 min late" in chain.text
    assert [(step.title, step.start, step.end) for step in chain.steps] == [
        ("Cut Ham", 571, 631),
        ("Take out: Roast Ham", 570, 571),
        ("Roast Ham", 510, 511),
        ("Trim Pork", 480, 510),
    ]
    assert [step.held for step in chain.steps] == [
        "Not before 09:31: it needs Take out: Roast Ham (batch 3, Ana), which is done then.",
        "Not before 09:30: Roast Ham (batch 2, Ana) is left to itself from 08:31 until then.",
        "Not before 08:30: it needs Trim Pork (batch 1, Ana), which is done then.",
        "Not before 08:00: Ana's shift begins then.",
    ]


def test_a_chain_that_ends_at_a_delivery() -> None:
    file = ham(raw_stock=[], deliveries=[delivery("pork", "9 kg", "09:15")])
    file["services"][0]["opens"] = "10:00"
    (chain,) = late_chains(morning_of(file))
    assert chain.steps[-1].held == "Not before 09:15: its delivery comes then (Pork)."


def test_a_delivery_that_makes_a_plate_late_by_itself_has_no_steps() -> None:
    file = ham(
        cooks=[cook("ana")],
        raw_stock=[],
        deliveries=[delivery("pork", "90 kg", "08:00"), delivery("leaf", "9 kg", "19:00")],
        ingredients=[{**file_food(), "id": "leaf", "name": "Leaf"}],
        takes={"leaf": "10 g"},
    )
    (chain,) = late_chains(morning_of(file))
    assert chain.steps == ()
    assert chain.binding == "its delivery comes at 19:00"


def file_food() -> dict[str, object]:
    return {"purchase": {"unit": "bag", "holds": "1 kg", "cost": 2}}


@pytest.mark.parametrize("more", [1.3, 1.6])
def test_on_a_real_morning_every_step_is_begun_before_the_next_ends(more: float) -> None:
    kitchen, _ = planned_seed("demo")
    crowded = with_covers(kitchen, kitchen.as_of, lambda covers: int(covers * more))
    options = PlanOptions(seconds=0.0, remedies=False)
    morning = Morning(crowded, plan_morning(crowded, kitchen.as_of, options))
    chains = late_chains(morning)
    assert chains
    for chain in chains:
        for later, earlier in zip(chain.steps, chain.steps[1:], strict=False):
            # What must follow within a limit is later, and holds what comes before it.
            assert earlier.start < later.end or "must follow" in later.held
            assert later.held
