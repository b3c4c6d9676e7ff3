"""The split of minutes adds up on any data, and is the textbooks' where they have one."""

from hypothesis import given
from hypothesis import strategies as st

from planner.labor.variance import NO_VARIANCE, Variance, Work, added, in_money, variance

SECONDS = st.integers(0, 20_000)
GRAMS = st.one_of(st.just(0.0), st.floats(0.5, 50_000))
WORKS = st.lists(st.builds(Work, GRAMS, SECONDS, GRAMS, SECONDS, SECONDS), max_size=12)


def _terms(split: Variance) -> tuple[int, int, int, int, int]:
    return split.volume, split.mix, split.rate, split.changeover, split.wage


@given(WORKS, SECONDS, SECONDS)
def test_terms_add_up_to_actual_less_plan(works: list[Work], planned: int, leads: int) -> None:
    split = variance(works, planned, leads)
    assert split.plan == sum(one.planned_seconds for one in works) + planned
    assert split.actual == sum(one.took_seconds for one in works) + leads
    assert sum(_terms(split)) == split.total == split.actual - split.plan
    assert split.wage == 0, "minutes know no wages"
    assert split.changeover == leads - planned


@given(WORKS, SECONDS, SECONDS, st.integers(0, 10**7), st.integers(0, 10**7))
def test_money_adds_up_to_the_cent(
    works: list[Work], planned: int, leads: int, budget: int, paid: int
) -> None:
    money = in_money(variance(works, planned, leads), budget, paid)
    assert (money.plan, money.actual) == (budget, paid)
    assert sum(_terms(money)) == paid - budget


@given(st.lists(st.tuples(WORKS, SECONDS, SECONDS), max_size=5))
def test_days_add_up_and_so_do_rounded_minutes(
    days: list[tuple[list[Work], int, int]],
) -> None:
    splits = [variance(*day) for day in days]
    whole = added(splits)
    assert whole.total == sum(split.total for split in splits)
    assert whole.rate == sum(split.rate for split in splits)
    minutes = whole.in_units_of(60)
    assert sum(_terms(minutes)) == minutes.total
    assert abs(minutes.rate - whole.rate / 60) <= 1


@given(WORKS.filter(lambda works: any(w.planned_grams for w in works)), SECONDS)
def test_a_day_that_goes_by_plan_has_no_variance(works: list[Work], leads: int) -> None:
    by_plan = [
        Work(w.planned_grams, w.planned_seconds, w.planned_grams, 0, w.planned_seconds)
        for w in works
        if w.planned_grams
    ]
    assert _terms(variance(by_plan, leads, leads)) == (0, 0, 0, 0, 0)


@given(st.integers(1, 20), SECONDS, SECONDS, st.floats(1, 1000))
def test_so_much_more_of_the_same_is_volume_alone(
    times: int, one: int, two: int, grams: float
) -> None:
    works = [
        Work(grams, one, grams * times, 0, one * times),
        Work(grams, two, grams * times, 0, two * times),
    ]
    split = variance(works, 0, 0)
    assert _terms(split) == ((one + two) * (times - 1), 0, 0, 0, 0)


def test_efficiency_and_wages_of_a_published_example() -> None:
    """www.accountingcoach.com, "Labor efficiency variance": 6,000 units at a standard of 3 hours
    and 10.00 an hour took 18,400 hours at 10.30. Efficiency 4,000 and rate 5,520 unfavourable,
    9,520 in all. Made is what was planned, so there is no volume variance; units stand for grams.
    """
    hours = 3600
    work = Work(6000, 18_000 * hours, 6000, 0, 18_400 * hours)
    money = in_money(variance([work], 0, 0), 18_000 * 1000, 18_400 * 1030)
    assert _terms(money) == (0, 0, 4000_00, 0, 5520_00)
    assert money.total == 9520_00


def test_mix_and_quantity_by_the_published_definition() -> None:
    """www.double-entry-bookkeeping.com, "Sales mix and quantity variances": budgeted are 9,000 of A
    and 3,000 of B, so 10,000 at the budgeted mix are 7,500 and 2,500. With rates of 2 and 5
    seconds (ours) the quantity variance is -2,000 at the average of 2.75, -5,500; and the mix
    variance of 6,000 A and 4,000 B is (6,000 - 7,500) x 2 + (4,000 - 2,500) x 5 = 4,500.
    """
    works = [
        Work(9000, 18_000, 6000, 0, 12_000),
        Work(3000, 15_000, 4000, 0, 20_000),
    ]
    assert _terms(variance(works, 0, 0)) == (-5500, 4500, 0, 0, 0)


def test_what_was_not_planned_is_worth_what_the_book_says() -> None:
    split = variance([Work(1000, 600, 1000, 600, 600), Work(0, 0, 500, 240, 300)], 0, 0)
    # Half as much more food at the plan's average of 0.6 s a gram; the new work is slower than
    # that by 0.12 s a gram less than none: 300 - 240 is its own.
    assert (split.volume, split.mix, split.rate) == (300, -60, 60)


def test_nothing_planned_at_all_is_volume() -> None:
    split = variance([Work(0, 0, 500, 240, 300)], 0, 30)
    assert _terms(split) == (240, 0, 60, 30, 0)
    assert _terms(in_money(split, 0, 900)) == (0, 0, 0, 0, 900)


def test_no_days_are_no_variance() -> None:
    assert added([]) == NO_VARIANCE
