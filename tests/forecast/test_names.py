"""Names of a file become the kitchen's own, or are asked about; none is guessed."""

import datetime as dt

from planner.forecast.history import COVERS, Sale
from planner.forecast.keeping import compared, odd_days
from planner.forecast.names import DISH, LEFT_OUT, SERVICE, known_names, settled
from planner.kitchen.document import Kitchen
from tests.kitchens.tiny import tiny_kitchen

DAY = dt.date(2026, 3, 2)


def kitchen() -> Kitchen:
    return Kitchen.model_validate(tiny_kitchen())


def sale(service: str, dish: str, count: int = 5, line: int = 2) -> Sale:
    return Sale(DAY, service, dish, count, line)


def test_ids_and_names_however_written_are_the_kitchen_s_own() -> None:
    file = kitchen()
    service, dish = file.services[0], file.dishes[0]
    lines = [
        sale(service.id, dish.name.upper()),
        sale(f" {service.name.lower()} ", COVERS.title()),
    ]
    found = settled(lines, known_names(file), {})
    assert not found.unknown
    assert [(one.service, one.dish) for one in found.sales] == [
        (service.name, dish.id),
        (service.name, COVERS),
    ]


def test_what_nobody_knows_is_asked_once_with_its_first_line_and_what_looks_like_it() -> None:
    file = kitchen()
    service, dish = file.services[0], file.dishes[0]
    wrong = f"{dish.name}s"
    lines = [sale(service.name, wrong, line=4), sale(service.name, wrong, line=9)]
    (asked,) = settled(lines, known_names(file), {}).unknown
    assert (asked.field, asked.value, asked.line, asked.lines) == (DISH, wrong, 4, 2)
    assert dish.id in asked.near


def test_answers_name_leave_out_and_keep_what_is_no_longer_made() -> None:
    file = kitchen()
    name, dish = file.services[0].name, file.dishes[0].id
    answers = {
        (SERVICE, "evening"): name,
        (DISH, "old pie"): "old pie",
        (DISH, "gift card"): LEFT_OUT,
        (DISH, "small"): dish,
    }
    lines = [
        sale("evening", "old pie", 3),
        sale("evening", "gift card", 9),
        sale("evening", "small", 4),
        sale("evening", dish, 6),
    ]
    found = settled(lines, known_names(file), answers)
    assert not found.unknown
    assert found.left_out == 1
    counts = {(one.service, one.dish): one.count for one in found.sales}
    assert counts == {(name, "old pie"): 3, (name, dish): 10}, "two under one name are summed"


def test_names_that_are_kept_are_known_again() -> None:
    known = known_names(kitchen(), [("brunch", "old pie")])
    assert not settled([sale("Brunch", "Old Pie")], known, {}).unknown


def test_lines_beside_those_kept_are_new_the_same_or_differ() -> None:
    kept = {(DAY, "dinner", "stew"): 4, (DAY, "dinner", "fish"): 5}
    lines = [sale("dinner", "stew", 4), sale("dinner", "fish", 6), sale("dinner", "tart", 1)]
    found = compared(lines, kept)
    assert [one.dish for one in found.new] == ["tart"]
    assert found.same == 1
    assert [(one.sale.dish, one.sale.count, one.kept) for one in found.differing] == [
        ("fish", 6, 5)
    ]


def test_a_day_to_come_or_long_gone_is_a_fault() -> None:
    (fault,) = odd_days([sale("dinner", "stew", line=7)], DAY - dt.timedelta(1))
    assert (fault.line, fault.value) == (7, DAY.isoformat())
    assert not list(odd_days([sale("dinner", "stew")], DAY))
    (old,) = odd_days([Sale(dt.date(26, 3, 1), "dinner", "stew", 4, 3)], DAY)
    assert "year" in old.remedy
