"""Dishes of a batch, in full and in few words."""

import pytest

from web.presenters.dishes import dish_text, dish_words


def test_a_dish_is_named_once_with_all_its_services() -> None:
    dishes = ("Soup (thick) (Lunch)", "Soup (thick) (Dinner)", "Tart")
    assert dish_text(dishes) == "Soup (thick) (Lunch, Dinner); Tart"


def test_services_of_another_day_are_kept_apart() -> None:
    dishes = ("Soup (Lunch)", "Soup (Dinner, Thu 26 Nov)", "Tart (Dinner, Thu 26 Nov)")
    assert dish_text(dishes) == "Soup (Lunch; Dinner, Thu 26 Nov); Tart (Dinner, Thu 26 Nov)"


@pytest.mark.parametrize(
    ("dishes", "words"),
    [
        ((), ""),
        (("Tart",), "Tart"),
        (("Roast squash soup, herb oil, croutons (Lunch)",), "Lunch: Roast squash soup"),
        (("Penne, ragout (Lunch)", "Barley, kale (Lunch)"), "Lunch: Penne, Barley"),
        (("Soup (Lunch)", "Soup (Dinner)"), "Lunch, Dinner: Soup"),
        (("Soup (Lunch)", "Tart, cream (Dinner)"), "Lunch: Soup; Dinner: Tart"),
        (("Soup (Lunch)", "Soup (Lunch, Thu 26 Nov)"), "Lunch and Lunch, Thu 26 Nov: Soup"),
    ],
)
def test_on_paper_first_words_do(dishes: tuple[str, ...], words: str) -> None:
    assert dish_words(dishes) == words


def test_brackets_stay_for_they_tell_dishes_apart() -> None:
    dish = "Banquet: roast beet, goat cheese (no nuts) (Banquet, upstairs room)"
    assert dish_words((dish,)) == "Banquet, upstairs room: roast beet (no nuts)"


def test_many_dishes_are_counted_by_service() -> None:
    dishes = ("A (Lunch)", "B (Lunch)", "C (Lunch)", "A (Dinner)")
    assert dish_words(dishes) == "Lunch: 3 dishes; Dinner: 1 dish"
    assert dish_words(dishes[:3]) == "Lunch: A, B, C"
