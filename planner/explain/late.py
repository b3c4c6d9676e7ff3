"""How something late came about: link by link, back to the start of the day."""

from dataclasses import dataclass

from planner.binding.links import Kind, Link, chain, holding
from planner.explain.words import Morning, hold_sentence


@dataclass(frozen=True, slots=True)
class Step:
    """One batch of a chain, or the part of it that counts.

    ``start`` (lead included) and ``end`` are minutes after midnight; ``held`` says in one sentence
    why it is not earlier, and is empty where nothing in the plan holds it.
    """

    batch: int
    title: str
    cook: str
    start: int
    end: int
    held: str


@dataclass(frozen=True, slots=True)
class LateChain:
    """Something late (``text``, ``minutes``), and the steps behind it, the latest first."""

    text: str
    minutes: int
    steps: tuple[Step, ...]
    binding: str
    """What the chain weighs most on; for what is late by its delivery alone, all there is."""


def late_chains(morning: Morning) -> tuple[LateChain, ...]:
    """The chain behind each late item, most serious first; empty where nothing is late."""
    return tuple(
        LateChain(
            trouble.text,
            trouble.minutes,
            () if trouble.task is None else steps_to(morning, trouble.task),
            trouble.binding,
        )
        for trouble in morning.plan.late
    )


def steps_to(morning: Morning, task: int) -> tuple[Step, ...]:
    """The chain of holds that ends with ``task``; a cook's run of one batch is one step."""
    found: list[Step] = []
    end = morning.incumbent.by_task[task].end
    links = chain(morning.tables, morning.incumbent, task)
    for link in links:
        if link.kind is Kind.COOK and _inside(morning, link):
            continue
        found.append(_step(morning, link.task, end, hold_sentence(morning, link)))
        if link.other is not None:
            end = morning.incumbent.by_task[link.other].end
    last = task if not links else links[-1].other
    if last is not None and not holding(morning.tables, morning.incumbent, last):
        found.append(_step(morning, last, end, ""))
    return tuple(found)


def _step(morning: Morning, task: int, end: int, held: str) -> Step:
    item = morning.incumbent.by_task[task]
    run = morning.run_of[task]
    start = item.start - item.lead.total
    return Step(run.number, morning.title(run), run.cook.name, start, end, held)


def _inside(morning: Morning, link: Link) -> bool:
    """Whether a hold is the same batch's task before."""
    return link.other is not None and morning.run_of[link.other] is morning.run_of[link.task]
