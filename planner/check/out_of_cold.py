"""How long each food really is out of temperature control, from the kitchen file and the clock."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from planner.check.cooling import in_cooling, is_hot
from planner.check.facts import Facts
from planner.check.violation import Rule, Violation
from planner.kitchen.document import Kitchen
from planner.kitchen.foods import Component, Holding
from planner.kitchen.safety import COLD_HOLDING_C, LOCAL_CODE
from planner.lots.types import Lot, Part
from planner.plan import Plan
from planner.schedule.timetable import Assignment


def check_out_of_cold(kitchen: Kitchen, plan: Plan) -> tuple[Violation, ...]:
    """Return every lot whose food has been out for longer than the kitchen allows.

    Minutes are added up along the lots that the food goes through, by the times of the plan.
    """
    done = {item.task: item for item in plan.solution.timetable.assignments}
    watch = _Watch(Facts(kitchen), plan.workload.lots, done, {})
    return tuple(watch.violations(kitchen.rules.out_of_control_minutes))


@dataclass(frozen=True, slots=True)
class _Out:
    """Minutes out by the end of a lot, before any reset, and whether the food stands warm after."""

    minutes: int
    at: int
    warm: bool
    safe: bool = False


@dataclass
class _Watch:
    facts: Facts
    lots: tuple[Lot, ...]
    done: Mapping[int, Assignment]
    known: dict[int, _Out | None]

    def violations(self, limit: int) -> Iterator[Violation]:
        for lot in self.lots:
            out = self._out(lot)
            if out is not None and out.minutes > limit:
                yield Violation(
                    Rule.EXPOSURE,
                    lot.id,
                    f"at the end of {lot.id} its food has been out of temperature control for "
                    f"{out.minutes} min; at most {limit} allowed ({LOCAL_CODE})",
                )

    def _out(self, lot: Lot) -> _Out | None:
        """None for food that needs no control, or is not made."""
        if lot.index not in self.known:
            made = [self.facts.catalog.components[share.component] for share in lot.shares]
            own = [one for one in made if one.tcs]
            there = all(item.task in self.done for item in lot.tasks)
            self.known[lot.index] = self._sum(lot, own) if own and there else None
        return self.known[lot.index]

    def _sum(self, lot: Lot, made: list[Component]) -> _Out:
        work = self._part(lot, Part.WORK)
        finish = self._part(lot, Part.FINISH)
        assert work is not None  # noqa: S101 - every lot has hands-on work, and it is done
        step = made[0].route[lot.step]
        heat = is_hot(self.facts, made[0], lot.step)
        rests = heat or any(in_cooling(self.facts, one, lot.step) for one in made)
        most = 0
        for index, _ in lot.upstream:
            before = self._out(self.lots[index])
            if before is not None:
                minutes = 0 if before.safe else before.minutes
                if before.warm:
                    minutes += work.start - before.at + (work.end - work.start if rests else 0)
                most = max(most, minutes)
        if rests:
            safe = self.facts.operation(made[0].id, lot.step).cooks_through
            return _Out(most, work.end, warm=False, safe=safe)
        if finish is None:
            most, at = most + work.end - work.start, work.end
        elif step.temperature_c is not None and step.temperature_c <= COLD_HOLDING_C:
            hands = work.end - work.start + finish.end - finish.start
            most, at = most + hands, finish.end
        else:
            most, at = most + finish.end - work.start, finish.end
        return _Out(most, at, warm=any(self._stands_warm(one, lot.step) for one in made))

    def _part(self, lot: Lot, part: Part) -> Assignment | None:
        return next((self.done[item.task] for item in lot.tasks if item.part is part), None)

    def _stands_warm(self, made: Component, step: int) -> bool:
        if step == len(made.route) - 1:
            return made.storage is Holding.AMBIENT
        return made.route[step].hold is Holding.AMBIENT
