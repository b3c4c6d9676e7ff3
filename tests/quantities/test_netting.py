"""Counted stock against wants: what serves whom, in which order, and what is left to make."""

from dataclasses import replace

import pytest

from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import Converter
from planner.kitchen.day import PreparedStock
from planner.kitchen.flow import route_flow
from planner.quantities.netting import Piece, Shelf, part_of
from planner.quantities.types import Reason, Share, StockUse, Want
from tests.kitchens.bench import (
    DATE,
    File,
    bench,
    cut_from,
    day,
    dish,
    food,
    making_of,
    need_of,
    read,
    recipe,
    service,
    stock,
    work,
)

BRINED, ROASTED = 1.0, 0.5
"""Yields of the two steps of ham: a kilo brined makes half a kilo roasted."""


def kitchen(**parts: object) -> File:
    return bench(
        ingredients=[food("pork")],
        operations=[
            work("brine"),
            work("roast", yields=[{"food": "pork", "fraction": ROASTED}]),
        ],
        components=[cut_from("pork", "ham", "brine", "roast")],
        dishes=[dish("plate", {"ham": "100 g"})],
        **parts,
    )


def want(grams: float, due: int = 1080, ahead: int = 0, consumer: str = "plate") -> Want:
    return Want(
        reason=Reason.DISH,
        consumer=consumer,
        consumer_name=consumer,
        grams=grams,
        expected=grams * 0.8,
        buffer=grams * 0.2,
        due=due + 1440 * ahead,
        until=1320 + 1440 * ahead,
        doors=due + 1440 * ahead,
        day=ahead,
        shares=(Share("dinner", consumer, 10, grams),),
    )


def shelf_of(*counted: File) -> Shelf:
    prepared = [PreparedStock.model_validate(entry) for entry in counted]
    kit = read(kitchen())
    flow = route_flow(Catalog(kit), Converter(kit), kit.components[0])
    assert [step.fraction for step in flow] == [BRINED, ROASTED]
    return Shelf(prepared, flow, Converter(kit), DATE)


def net(wants: list[Want], *counted: File) -> tuple[list[Piece], tuple[StockUse, ...]]:
    """What is still to be made of wants, served in their order, and the stock used."""
    shelf = shelf_of(*counted)
    return [piece for want in wants for piece in shelf.serve(want)], shelf.used


def test_without_stock_everything_is_to_make() -> None:
    pieces, used = net([want(500)])
    assert [(p.grams, p.first_step) for p in pieces] == [(500, 0)]
    assert used == ()


def test_stock_is_taken_off_what_is_to_make() -> None:
    pieces, used = net([want(500)], stock("ham", "200 g"))
    assert [p.grams for p in pieces] == [pytest.approx(300)]
    assert [u.grams for u in used] == [pytest.approx(200)]


def test_enough_stock_leaves_nothing_to_make() -> None:
    pieces, used = net([want(500)], stock("ham", "2 kg"))
    assert pieces == []
    assert [u.grams for u in used] == [pytest.approx(500)], "only what is wanted is used"


def test_what_goes_off_first_is_used_first() -> None:
    _, used = net(
        [want(300)],
        stock("ham", "200 g", use_by=day(3)),
        stock("ham", "200 g", use_by=day(1)),
    )
    assert [(u.use_by, u.grams) for u in used] == [
        (day(1), pytest.approx(200)),
        (day(3), pytest.approx(100)),
    ]


def test_the_earliest_want_is_served_first() -> None:
    """Lunch takes the 400 g there are, and dinner waits for what is made."""
    lunch = service("lunch", {"plate": 0.3}, opens="11:00", closes="14:00")
    dinner = service("dinner", {"plate": 0.3})
    for services in ([lunch, dinner], [dinner, lunch]):
        file = kitchen(services=services, prepared=[stock("ham", "400 g")])
        making = making_of(file, "ham")
        assert making.want.consumer_name == "Plate, Dinner"
        assert making.grams == pytest.approx(200)


def test_stock_serves_no_service_after_its_use_by() -> None:
    shelf = shelf_of(stock("ham", "1 kg", use_by=day(1)))
    assert [p.grams for p in shelf.serve(want(300, ahead=2))] == [300]
    assert shelf.used == ()
    assert shelf.expired == (), "good today, so nothing to discard today"


def test_stock_serves_on_its_use_by_day() -> None:
    pieces, _ = net([want(300, ahead=1)], stock("ham", "1 kg", use_by=day(1)))
    assert pieces == []


def test_stock_past_its_use_by_is_told_and_not_counted() -> None:
    shelf = shelf_of(stock("ham", "1 kg", made=day(-5), use_by=day(-1)))
    assert [p.grams for p in shelf.serve(want(300))] == [300]
    assert shelf.used == ()
    assert [e.use_by.isoformat() for e in shelf.expired] == [day(-1)]
    assert shelf.finished(0) == 0


def test_what_keeps_only_for_today_is_left_to_today_where_tomorrow_can_take_better() -> None:
    """Today takes the stock that goes off first, tomorrow the other: nothing is to make."""
    pieces, _ = net(
        [want(300), want(300, ahead=1)],
        stock("ham", "300 g", use_by=day(1)),
        stock("ham", "300 g", use_by=day(0)),
    )
    assert pieces == []


def test_part_made_stock_counts_for_what_the_rest_of_the_route_makes_of_it() -> None:
    """800 g brined make 400 g; the last 100 g of the 500 start from raw."""
    pieces, used = net([want(500)], stock("ham", "800 g", after_step=1))
    assert [(p.first_step, p.grams) for p in pieces] == [
        (1, pytest.approx(400)),
        (0, pytest.approx(100)),
    ]
    assert [(u.after_step, u.grams) for u in used] == [(1, pytest.approx(800))]


def test_finished_stock_is_used_before_part_made_stock() -> None:
    pieces, _ = net(
        [want(500)],
        stock("ham", "800 g", after_step=1, use_by=day(1)),
        stock("ham", "300 g", use_by=day(3)),
    )
    assert [(p.first_step, p.grams) for p in pieces] == [(1, pytest.approx(200))]


def test_a_piece_carries_its_part_of_the_want_and_of_the_portions() -> None:
    pieces, _ = net([want(500)], stock("ham", "250 g"))
    part = pieces[0].want
    assert (part.grams, part.expected, part.buffer) == (
        pytest.approx(250),
        pytest.approx(200),
        pytest.approx(50),
    )
    assert [(s.portions, s.grams) for s in part.shares] == [(5, pytest.approx(250))]


def test_part_of_all_of_a_want_is_the_want() -> None:
    whole = want(500)
    assert part_of(whole, 500.0) is whole


def test_a_small_part_still_stands_for_a_portion() -> None:
    """What is made serves somebody; with no portion at stake it could be dropped for free."""
    assert part_of(want(500), 1.0).shares[0].portions == 1


def test_part_made_stock_runs_only_the_rest_of_its_route() -> None:
    file = kitchen(prepared=[stock("ham", "2 kg", after_step=1)])
    making = making_of(file, "ham")
    assert (making.first_step, making.last_step, making.finishes) == (1, 2, True)
    assert making.draws == (), "nothing raw is taken"
    need = need_of(file, "ham")
    assert [(s.operation, s.grams_in, s.grams_out) for s in need.steps] == [
        ("roast", pytest.approx(2000), pytest.approx(1000))
    ]


def test_food_for_a_start_that_was_missed_is_judged_by_today() -> None:
    """The stew had to start yesterday, when the ham was good; it starts today, and it is not."""
    file = bench(
        ingredients=[food("pork")],
        operations=[work("cut"), work("stew", unattended_minutes=900)],
        components=[
            cut_from("pork", "ham", "cut"),
            recipe("soup", "1 kg", {"ham": "1 kg"}, "stew"),
        ],
        dishes=[dish("plate", {"soup": "100 g"})],
        prepared=[stock("ham", "5 kg", made=day(-3), use_by=day(-1))],
    )
    need = need_of(file, "ham")
    assert need.stock == ()
    assert need.to_make == pytest.approx(1000)


def test_wants_of_several_days_share_one_count() -> None:
    """A kilo on hand for 600 g today and 600 g tomorrow leaves 200 g of tomorrow's to make."""
    wants = [want(600), replace(want(600, ahead=1), consumer="tomorrow")]
    pieces, _ = net(wants, stock("ham", "1 kg"))
    assert [(p.want.consumer, p.grams) for p in pieces] == [("tomorrow", pytest.approx(200))]


def test_stock_goes_to_the_first_service_and_the_rest_to_the_next() -> None:
    """A kilo and a half for a kilo tonight and a kilo tomorrow."""
    file = kitchen(
        services=[service("dinner", {"plate": 1.0}), service("feast", {"plate": 1.0}, ahead=1)],
        prepared=[stock("ham", "1500 g")],
        rules={"lookahead_days": 1},
    )
    need = need_of(file, "ham")
    assert sum(u.grams for u in need.stock) == pytest.approx(1500)
    assert need.to_make == 0, "500 g for tomorrow start tomorrow"


def test_what_is_given_out_today_is_there_today_and_gone_tomorrow() -> None:
    shelf = shelf_of(stock("ham", "1 kg"), stock("ham", "500 g", use_by=day(0)))
    shelf.serve(want(700))
    assert shelf.finished(0) == pytest.approx(1500)
    assert shelf.finished(1) == pytest.approx(800), "500 g are past their day, 200 g are eaten"


def test_what_is_spoken_for_by_a_later_day_is_there_until_then() -> None:
    """A kilo on the shelf, 700 g of it for tomorrow: there today and tomorrow, eaten after."""
    shelf = shelf_of(stock("ham", "1 kg"))
    shelf.serve(want(700, ahead=1))
    assert shelf.finished(0) == pytest.approx(1000)
    assert shelf.finished(1) == pytest.approx(1000)
    assert shelf.finished(2) == pytest.approx(300)
