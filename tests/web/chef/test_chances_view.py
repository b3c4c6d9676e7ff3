"""How sure a service is, in words that say what the number means."""

from dataclasses import replace

from planner.rates.types import ServiceChance
from web.presenters.chances import chances_view
from web.presenters.preferences import Preferences

DINNER = ServiceChance("dinner", "Dinner", 1020, 0.874, 12.4, 0.0, "Fish cakes")
TWELVE = Preferences(clock=12)


def test_the_number_comes_with_what_it_means() -> None:
    view = chances_view([DINNER], Preferences())
    assert view is not None
    (dinner,) = view.services
    assert dinner.chance == "87 of 100"
    assert dinner.meaning == (
        "Of 100 mornings like this one, all is ready by 17:00 on 87. "
        "On nine of ten it is ready by 17:12."
    )
    assert dinner.last == "Most often the last to be ready: Fish cakes"
    assert not dinner.low
    assert "a guess" in view.basis


def test_no_rounding_makes_a_service_certain_or_hopeless() -> None:
    sure = chances_view([replace(DINNER, chance=0.9998), replace(DINNER, chance=0.0002)], TWELVE)
    assert sure is not None
    assert [one.chance for one in sure.services] == ["more than 99 of 100", "fewer than 1 of 100"]
    assert [one.low for one in sure.services] == [False, True]
    assert "5:00 pm" in sure.services[0].meaning.lower()


def test_what_is_short_and_what_was_learned_are_said() -> None:
    view = chances_view([replace(DINNER, short=True, learned=0.6)], Preferences())
    assert view is not None
    assert view.services[0].meaning.endswith("What the plan leaves short is not counted.")
    assert "learned from ticks for 60 % of the work" in view.basis


def test_without_services_nothing_is_said() -> None:
    assert chances_view([], Preferences()) is None
