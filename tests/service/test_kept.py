"""What is kept at hand is bounded, and the last that was asked for."""

from service.kept import Kept


def test_what_was_not_asked_for_longest_is_let_go() -> None:
    kept: Kept[str, int] = Kept(2)
    kept.put("a", 1)
    kept.put("b", 2)
    assert kept.get("a") == 1
    kept.put("c", 3)
    assert kept.get("b") is None
    assert (kept.get("a"), kept.get("c")) == (1, 3)


def test_a_value_is_given_back_and_replaced() -> None:
    kept: Kept[str, int] = Kept(1)
    assert kept.put("a", 1) == 1
    assert kept.put("a", 2) == 2
    assert kept.get("a") == 2
    assert kept.get("z") is None
