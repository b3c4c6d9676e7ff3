"""Tables of what was run: means over instances, gaps to proven bounds, and who did better."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from statistics import mean, median

from planner.schedule.timetable import TERMS, Term
from tests.bench.peers import OURS, PEERS
from tests.bench.run import Run
from tests.bench.sizes import KINDS, SIZES

SHOWN = (Term.SHORT, Term.TARDINESS, Term.LABOR)
_NONE = "-"

Instance = tuple[str, str, int]


def instance_of(run: Run) -> Instance:
    """What was planned: size, kind, seed."""
    return run.task.size, run.task.kind, run.task.seed


def results_table(runs: Sequence[Run]) -> str:
    """One line per size, kind, peer and limit."""
    bounds = _bounds(runs)
    lines = [
        "| size | kind | plan by | limit s | plans | first plan s | in all s | processor s "
        "| short, gap | late, gap | labor, gap | proven best | peak MB |",
        "| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |",
    ]
    for (size, kind, peer, seconds), group in _groups(runs):
        made = [run for run in group if run.score is not None]
        firsts = [run.first for run in made if run.first is not None]
        cells = [
            size,
            kind,
            f"**{peer}**" if peer == OURS else peer,
            f"{seconds:g}" if PEERS[peer].timed else _NONE,
            f"{len(made)} of {len(group)}",
            f"{median(firsts):.2f}" if firsts else _NONE,
            f"{median(run.took for run in group):.1f}",
            f"{median(run.processor for run in group):.1f}",
            *(_value_and_gap(made, term, bounds) for term in SHOWN),
            f"{sum(run.status == 'optimal' for run in group)} of {len(group)}",
            f"{max(run.megabytes for run in group):.0f}",
        ]
        lines.append(f"| {' | '.join(cells)} |")
    return "\n".join(lines) + "\n"


def gap_of(run: Run, term: Term, bounds: Iterable[Run]) -> tuple[int, int] | None:
    """(value, bound) of a term, or None where no bound is valid for this plan.

    A bound speaks of plans that are no worse in every earlier term than the plan it was stated for.

    Raises
    ------
    RuntimeError
        The plan is better than a bound: the bound is wrong.
    """
    score = run.score
    if score is None:
        return None
    at = TERMS.index(term)
    valid = [
        other.bounds[at]
        for other in bounds
        if other.bounds is not None
        and other.score is not None
        and all(mine <= theirs for mine, theirs in zip(score[:at], other.score[:at], strict=True))
    ]
    if not valid:
        return None
    if score[at] < max(valid):
        raise RuntimeError(f"{run.task}: {term.value} {score[at]} is below a bound, {max(valid)}")
    return score[at], max(valid)


def versus_table(runs: Sequence[Run]) -> str:
    """How often ours is better, equal or worse, term by term in order, at the same limit."""
    found: dict[tuple[str, float], list[int]] = defaultdict(lambda: [0, 0, 0, 0])
    for _, run, own in _pairs(runs):
        if run.as_score is None:
            place = 3
        elif own.as_score == run.as_score:
            place = 1
        else:
            place = 0 if _beats(own, run) else 2
        found[run.task.peer, own.task.seconds][place] += 1
    lines = [
        "| compared with | limit s | ours better | equal | ours worse | it has no plan |",
        "| --- | --- | --- | --- | --- | --- |",
    ]
    for peer in PEERS:
        for (name, seconds), counts in sorted(found.items()):
            if name == peer:
                told = " | ".join(map(str, counts))
                lines.append(f"| {name} | {seconds:g} | {told} |")
    return "\n".join(lines) + "\n"


def losses(runs: Sequence[Run]) -> str:
    """Every run in which another plan is better than ours, as a list."""
    lines = [
        f"- {size} {kind}, seed {seed}, {own.task.seconds:g} s: **{run.task.peer}** "
        f"{_terms(run)}; ours {_terms(own)}"
        for (size, kind, seed), run, own in _pairs(runs)
        if run.score is not None and not _beats(own, run) and own.score != run.score
    ]
    return "\n".join(lines) + "\n" if lines else "None in these runs.\n"


def notes(runs: Sequence[Run]) -> str:
    """Why there is no plan where there is none, as a list."""
    found: dict[tuple[str, str], list[str]] = defaultdict(list)
    for run in runs:
        if run.score is None:
            size, kind, seed = instance_of(run)
            place = f"{size} {kind} {seed} at {run.task.seconds:g} s"
            found[run.task.peer, run.note].append(place)
    lines = [
        f"- **{peer}**: {note}: {', '.join(places)}"
        for (peer, note), places in sorted(found.items())
    ]
    return "\n".join(lines) + "\n" if lines else "None.\n"


def _groups(runs: Iterable[Run]) -> Iterator[tuple[tuple[str, str, str, float], list[Run]]]:
    """Runs of one line, in the order of the sizes, kinds and peers."""
    found: dict[tuple[str, str, str, float], list[Run]] = defaultdict(list)
    for run in runs:
        found[run.task.size, run.task.kind, run.task.peer, run.task.seconds].append(run)
    sizes, peers = list(SIZES), list(PEERS)
    for key in sorted(
        found, key=lambda k: (sizes.index(k[0]), KINDS.index(k[1]), peers.index(k[2]), k[3])
    ):
        yield key, found[key]


def _bounds(runs: Iterable[Run]) -> dict[Instance, list[Run]]:
    """Runs with bounds, by instance."""
    found: dict[Instance, list[Run]] = defaultdict(list)
    for run in runs:
        if run.bounds is not None:
            found[instance_of(run)].append(run)
    return found


def _value_and_gap(runs: Sequence[Run], term: Term, bounds: dict[Instance, list[Run]]) -> str:
    """Mean value, and how far the sum lies above the sum of bounds."""
    if not runs:
        return _NONE
    at = TERMS.index(term)
    value = mean(run.score[at] for run in runs if run.score is not None)
    pairs = [pair for run in runs if (pair := gap_of(run, term, bounds[instance_of(run)]))]
    if not pairs:
        return f"{value:.0f}, no bound"
    reached, bound = (sum(part) for part in zip(*pairs, strict=True))
    some = "" if len(pairs) == len(runs) else f" ({len(pairs)} of {len(runs)})"
    if bound:
        return f"{value:.0f}, {(reached - bound) / reached:.0%}{some}"
    return f"{value:.0f}, +{reached / len(pairs):.0f}{some}"


def _pairs(runs: Sequence[Run]) -> Iterator[tuple[Instance, Run, Run]]:
    """Each other plan with ours of the same instance and limit, or with every one of ours."""
    own: dict[Instance, list[Run]] = defaultdict(list)
    for run in runs:
        if run.task.peer == OURS and run.score is not None:
            own[instance_of(run)].append(run)
    for _, group in _groups(run for run in runs if run.task.peer != OURS):
        for run in group:
            for mine in own[instance_of(run)]:
                if not PEERS[run.task.peer].timed or mine.task.seconds == run.task.seconds:
                    yield instance_of(run), run, mine


def _beats(one: Run, other: Run) -> bool:
    return one.score is not None and (other.score is None or one.score < other.score)


def _terms(run: Run) -> str:
    if run.score is None:
        return _NONE
    return ", ".join(f"{term.value} {value}" for term, value in zip(TERMS, run.score, strict=True))
