"""The tables of docs/learning.md."""

from collections.abc import Iterator, Mapping, Sequence

from tests.bench.learning.measures import (
    FOOD,
    SHORT_ITEMS,
    STRETCHES,
    TIME,
    TURNED_AWAY,
    WASTE,
    Floats,
    Measure,
    at_waste,
    less,
    mean,
    more,
    of_kitchens,
)
from tests.bench.learning.season import Season

BOOK, LEARNED = "by the file", "all learned"
_NONE = "-"
Runs = Mapping[str, Sequence[Season]]
"""Seasons of the same kitchens, by way to plan."""


def tables(runs: Runs, curve: Mapping[float, Sequence[Season]]) -> dict[str, str]:
    """Every table by its mark."""
    made = {
        "beside": beside(runs, curve),
        "ways": ways(runs),
        "curve": flats(runs, curve),
        "mornings": mornings(runs),
        "weights": weights(runs),
    }
    return {name: "\n".join(lines) + "\n" for name, lines in made.items()}


def beside(runs: Runs, curve: Mapping[float, Sequence[Season]]) -> Iterator[str]:
    """Learned against the file, stretch by stretch."""
    yield "| days | measure | by the file | learned | less by, in % |"
    yield "| --- | --- | --- | --- | --- |"
    book, learned = runs[BOOK], runs[LEARNED]
    for first, last in _stretches(book):
        for measure in (*FOOD, *TIME[:2]):
            before = of_kitchens(measure, book, first, last)
            after = of_kitchens(measure, learned, first, last)
            gain = less(before, after)
            yield (
                f"| {first} to {last} | {_head(measure)} | {mean(before).text(measure.digits)} | "
                f"{mean(after).text(measure.digits)} | {_NONE if gain is None else gain.text(0)} |"
            )
        for measure in (SHORT_ITEMS, TURNED_AWAY):
            found = at_waste(measure, list(curve.values()), learned, first, last)
            after = of_kitchens(measure, learned, first, last)
            cells = (_NONE, _NONE)
            if found is not None:
                cells = f"{found[0]:.{measure.digits}f}", found[1].text(0)
            yield (
                f"| {first} to {last} | {_head(measure)}, at equal waste | {cells[0]} | "
                f"{mean(after).text(measure.digits)} | {cells[1]} |"
            )


def ways(runs: Runs) -> Iterator[str]:
    """What each kind of learning brings, over the last stretch and over all days."""
    yield f"| days | way | {' | '.join(map(_head, FOOD))} |"
    yield "| --- | --- |" + " --- |" * len(FOOD)
    last = _stretches(runs[BOOK])[-1]
    for first, end in (last, (1, last[1])):
        for name, seasons in runs.items():
            cells = []
            for measure in FOOD:
                values = of_kitchens(measure, seasons, first, end)
                cells.append(_beside(measure, of_kitchens(measure, runs[BOOK], first, end), values))
            yield f"| {first} to {end} | {name} | {' | '.join(cells)} |"


def mornings(runs: Runs) -> Iterator[str]:
    """The same of time."""
    yield f"| days | way | {' | '.join(map(_head, TIME))} |"
    yield "| --- | --- |" + " --- |" * len(TIME)
    for first, end in _stretches(runs[BOOK]):
        for name, seasons in runs.items():
            if not seasons[0].timed:
                continue
            cells = [
                _beside(
                    measure,
                    of_kitchens(measure, runs[BOOK], first, end),
                    of_kitchens(measure, seasons, first, end),
                )
                for measure in TIME
            ]
            yield f"| {first} to {end} | {name} | {' | '.join(cells)} |"


def flats(runs: Runs, curve: Mapping[float, Sequence[Season]]) -> Iterator[str]:
    """The file with other flat shares, over the last stretch."""
    measures = (SHORT_ITEMS, TURNED_AWAY, WASTE)
    yield f"| way | {' | '.join(map(_head, measures))} |"
    yield "| --- |" + " --- |" * len(measures)
    first, last = _stretches(runs[BOOK])[-1]
    rows = {f"the file, {100 * share:.0f} % on top": seasons for share, seasons in curve.items()}
    for name, seasons in {**rows, LEARNED: runs[LEARNED]}.items():
        cells = [mean(of_kitchens(one, seasons, first, last)).text(one.digits) for one in measures]
        yield f"| {name} | {' | '.join(cells)} |"


def weights(runs: Runs) -> Iterator[str]:
    """What became of wrong weights."""
    heads = (
        "way",
        "tests",
        "wrong",
        "of these asked about",
        "counted unasked",
        "counted by a wrong answer",
        "right ones asked about",
    )
    yield f"| {' | '.join(heads)} |"
    yield "| --- |" + " --- |" * (len(heads) - 1)
    for name, seasons in runs.items():
        sums = [
            sum(getattr(one.weights, field) for one in seasons)
            for field in ("tests", "wrong", "asked", "unasked", "waved_through", "right_asked")
        ]
        if sums[0]:
            yield f"| {name} | {' | '.join(f'{n:,}' for n in sums)} |"


def _beside(measure: Measure, before: Floats, after: Floats) -> str:
    value = f"{after.mean():.{measure.digits}f}"
    if before is after or (before == after).all():
        return value
    return f"{value}; {more(before, after).text(measure.digits, signed=True)}"


def _head(measure: Measure) -> str:
    return f"{measure.name}, {measure.unit}" if measure.unit else measure.name


def _stretches(seasons: Sequence[Season]) -> list[tuple[int, int]]:
    days = max(len(one.days) for one in seasons)
    return [(first, min(last, days)) for first, last in STRETCHES if first <= days]
