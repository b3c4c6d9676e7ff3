"""Sales history: how many of each dish every service sold, checked before it is used."""

import datetime as dt
from collections import Counter, defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from planner.wording import sentence

COVERS = "covers"
"""The dish under which a history counts the guests themselves."""
_MOST = 100_000
_LONGEST = 80
_USUAL = 0.5
"""A weekday on which a service was open at least so often is one of its days."""


@dataclass(frozen=True, slots=True)
class Sale:
    """One line of a history: ``count`` of ``dish`` at ``service``; ``line`` says where it stood.

    ``ran_out``: there was none left, so that guests would have taken more.
    """

    date: dt.date
    service: str
    dish: str
    count: int
    line: int = 0
    ran_out: bool = False


@dataclass(frozen=True, slots=True)
class HistoryFault:
    """What is wrong with one line, and what to do."""

    line: int
    field: str
    value: str
    trouble: str
    remedy: str

    def __str__(self) -> str:
        where = f"line {self.line}, " if self.line else ""
        return f"{where}{self.field} {self.value!r}: {self.trouble}. {self.remedy}"


class HistoryError(ValueError):
    """A history that cannot be used; carries every fault, not the first only."""

    def __init__(self, faults: Iterable[HistoryFault]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(map(str, self.faults)))


@dataclass(frozen=True, slots=True)
class Gap:
    """A day on which a service is usually open and the history has nothing of it."""

    service: str
    date: dt.date


@dataclass(frozen=True, slots=True)
class Series:
    """Counts of one thing on the days that its service was open, in order of time."""

    dates: tuple[dt.date, ...]
    counts: tuple[int, ...]

    def before(self, date: dt.date) -> "Series":
        """What was known when that day began."""
        known = sum(1 for one in self.dates if one < date)
        return Series(self.dates[:known], self.counts[:known])


@dataclass(frozen=True, slots=True)
class History:
    """Counts by service, date and dish. ``gaps`` are days that may be missing from it.

    ``ran_out`` are (service, date, dish) of which there was not enough.
    """

    sold: Mapping[str, Mapping[dt.date, Mapping[str, int]]]
    gaps: tuple[Gap, ...]
    ran_out: frozenset[tuple[str, dt.date, str]] = frozenset()

    def dishes(self, service: str) -> tuple[str, ...]:
        """Dishes that a service sold, without the covers; most sold first."""
        total: Counter[str] = Counter()
        for counts in self.sold.get(service, {}).values():
            total.update({dish: n for dish, n in counts.items() if dish != COVERS})
        return tuple(dish for dish, _ in sorted(total.items(), key=lambda one: (-one[1], one[0])))

    def series(self, service: str, dish: str) -> Series:
        """Counts of a dish from the day it was first sold to the last; open days without it are 0.

        Raises
        ------
        KeyError
            The service never sold it.
        """
        days = self.sold.get(service, {})
        sold = [date for date, counts in days.items() if counts.get(dish, 0) > 0]
        if not sold:
            raise KeyError(f"the history has no {dish!r} at {service!r}")
        dates = tuple(sorted(date for date in days if min(sold) <= date <= max(sold)))
        return Series(dates, tuple(days[date].get(dish, 0) for date in dates))


def history_of(
    sales: Iterable[Sale], closed: Collection[tuple[str, dt.date]] = frozenset()
) -> History:
    """Put lines together; days that a service was ``closed`` are known to be missing.

    Raises
    ------
    HistoryError
        A count below zero or larger than any kitchen's, a name left out, or two lines of one dish
        at one service: nobody can tell whether they add up or repeat one another.
    """
    faults: list[HistoryFault] = []
    seen: dict[tuple[dt.date, str, str], Sale] = {}
    sold: dict[str, dict[dt.date, dict[str, int]]] = defaultdict(lambda: defaultdict(dict))
    for sale in sales:
        faults += _faults_of(sale)
        key = (sale.date, sale.service, sale.dish)
        if key in seen:
            faults.append(_again(sale, seen[key].line))
            continue
        seen[key] = sale
        sold[sale.service][sale.date][sale.dish] = sale.count
    if faults:
        raise HistoryError(faults)
    plain = {
        service: {date: dict(days[date]) for date in sorted(days)}
        for service, days in sorted(sold.items())
    }
    gaps = (gap for service in plain for gap in _gaps(service, plain[service]))
    return History(
        plain,
        tuple(gap for gap in gaps if (gap.service, gap.date) not in closed),
        frozenset((one.service, one.date, one.dish) for one in seen.values() if one.ran_out),
    )


def _again(sale: Sale, line: int) -> HistoryFault:
    values = {"service": sale.service, "date": sale.date}
    if line:
        trouble = sentence("{service} of {date} has it already in line {n}", **values, n=line)
    else:
        trouble = sentence("{service} of {date} has it already", **values)
    remedy = sentence("Keep one line, with the sum if both were sold")
    return HistoryFault(sale.line, "dish", sale.dish, trouble, remedy)


def _faults_of(sale: Sale) -> Iterable[HistoryFault]:
    for field, name in (("service", sale.service), ("dish", sale.dish)):
        if not name.strip():
            yield HistoryFault(
                sale.line, field, name, sentence("it is left out"), sentence("Enter its id")
            )
        if len(name) > _LONGEST:
            yield HistoryFault(
                sale.line,
                field,
                f"{name[:_LONGEST]}...",
                sentence("it is longer than any name"),
                sentence("Enter its id, or a name of at most {n} characters", n=_LONGEST),
            )
    if sale.count < 0:
        yield HistoryFault(
            sale.line,
            "count",
            str(sale.count),
            sentence("nobody sells fewer than none"),
            sentence("Leave refunds out of the history"),
        )
    if sale.ran_out and sale.dish == COVERS:
        yield HistoryFault(
            sale.line,
            "ran_out",
            sale.dish,
            sentence("guests are counted, and do not run out"),
            sentence("Say it of the dishes that did"),
        )
    if sale.count > _MOST:
        yield HistoryFault(
            sale.line,
            "count",
            str(sale.count),
            sentence("more than {n} of a dish at one service", n=_MOST),
            sentence("Enter portions, not money"),
        )


def _gaps(service: str, days: Mapping[dt.date, object]) -> Iterable[Gap]:
    first, last = min(days), max(days)
    whole = [first + dt.timedelta(n) for n in range((last - first).days + 1)]
    there, all_of_them = Counter(d.weekday() for d in days), Counter(d.weekday() for d in whole)
    usual = {day for day in there if there[day] >= _USUAL * all_of_them[day]}
    return (Gap(service, d) for d in whole if d.weekday() in usual and d not in days)
