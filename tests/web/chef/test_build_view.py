"""Where a search stands, in words."""

import pytest

from web.chef.build_view import BuildState, Found, build_view

FIRST = Found(seconds=0.4, late=30, short=12, labor=600, how="earliest due first")
BETTER = Found(seconds=3.2, late=5, short=12, labor=535, how="two cooks freed")


def test_the_last_step_is_the_best_and_what_was_gained_is_told() -> None:
    view = build_view(BuildState("running", [FIRST, BETTER], True, 8.0))
    assert view.best is not None
    assert (view.best.late, view.best.short, view.best.labor) == (
        "5 min",
        "12 portions",
        "8 h 55",
    )
    assert view.gained == "25 min less late, 1 h 05 less work"
    assert [step.how for step in view.steps] == ["two cooks freed", "earliest due first"]


@pytest.mark.parametrize(
    ("state", "has_sheet", "stopping", "heading", "can_stop"),
    [
        ("queued", False, False, "Waiting for its turn", True),
        ("running", False, False, "Making the first plan", True),
        ("running", True, False, "Looking for a better plan", True),
        ("running", True, True, "Stopping", False),
        ("done", True, False, "The plan is ready", False),
        ("failed", False, False, "There is no plan", False),
    ],
)
def test_every_state_says_what_goes_on(
    state: str, has_sheet: bool, stopping: bool, heading: str, can_stop: bool
) -> None:
    view = build_view(BuildState(state, [], has_sheet, 8.0, stopping=stopping))
    assert (view.heading, view.can_stop) == (heading, can_stop)
