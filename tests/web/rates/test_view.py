"""Learned figures in words: named as the kitchen names them, with doubt, and odd ticks asked of."""

from planner.rates.apply import with_rates
from planner.rates.ticked import Ticked
from planner.rates.types import Doubtful, Key, Kind, Learned, LeftOut, Observation, SkillRates
from tests.rates.test_apply import ANA, CARROT, ONION, SET_UP, kitchen
from web.rates.view import rates_view

ODD = Observation("hands", ANA, ONION, None, 2, 190, source="2025-03-04 ana 3")
SKILL = SkillRates(
    "hands",
    (
        Learned(ONION, 12, 10, 0.1, 9.2),
        Learned(CARROT, 5, 6, 0.1, 4),
        Learned(SET_UP, 4.6, 3, 0.2, 8),
        Learned(ANA, 0.9, 0.8, 0.05, 20),
        Learned(Key(Kind.RATE, operation="gone", food="leek"), 3, 3, 0.5, 1),
    ),
    spread=0.22,
    cooks_spread=0.2,
    forgotten=0.06,
    batches=40,
    doubtful=(Doubtful(ODD, 24.0, 0.01),),
)
TICKED = Ticked({}, {}, (LeftOut("a", "not timed"), LeftOut("b", "not timed")))


def test_figures_are_named_and_cooks_have_a_pace() -> None:
    changes = with_rates(kitchen(), [SKILL])[1]
    view = rates_view(kitchen(), [SKILL], TICKED, 12, changes, changes)
    figures = {one.name: one for one in view.skills[0].figures}
    onion = figures["Dice, Onion: minutes per kg"]
    assert (onion.in_file, onion.usual, onion.batches) == ("10", "12", "9")
    assert onion.between.startswith("10.18")
    pace = figures["Pace of Ana"]
    assert (pace.in_file, pace.usual) == ("1.25", "1.11")
    low, high = pace.between.replace("\N{EN DASH}", " ").replace("to", " ").split()
    assert float(low) < 1.11 < float(high)
    assert figures["Dice: set-up, minutes"].usual == "4.6"
    gone = figures["gone, leek: minutes per "]
    assert gone.in_file == "", "what the file does not know any more has no figure in it"


def test_what_is_odd_or_left_out_is_told_with_its_numbers() -> None:
    view = rates_view(kitchen(), [SKILL], TICKED, 12, (), ())
    assert view.questions == (
        "2025-03-04 ana 3: ticked after 190 min, usually about 24. It does not count.",
    )
    assert view.left_out == ("2 batches: not timed",)
    assert view.explained == "From 40 batches ticked on 12 days of the last 60."
    assert not view.can_take_over


def test_what_taking_over_changes_is_counted() -> None:
    changes = with_rates(kitchen(), [SKILL])[1]
    view = rates_view(kitchen(), [SKILL], TICKED, 1, changes, changes)
    assert view.changes == ("4 figures change: 3 are longer than the kitchen file's, 1 shorter.")
    assert view.can_take_over
