"""Names for what is in trouble and for what binds, in the kitchen's own words."""

import datetime as dt
from collections.abc import Iterable, Sequence

from planner.kitchen.base import clock_minutes
from planner.lots.promises import OWN
from planner.lots.types import Lot, Workload
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.types import PullLine
from planner.sheet.away import BREAK, ON_LINE, SET_UP, away
from planner.troubles.causes import Cause
from planner.wording import grams_text, sentence, short_date

_DAY = 24 * 60
_AWAY = {
    BREAK: sentence("on a break"),
    ON_LINE: sentence("on the line"),
    SET_UP: sentence("setting up the station"),
}


class Naming:
    """Words for one morning.

    Parameters
    ----------
    kit, workload
        The kitchen on its day, and the lots that the indexes of the problem stand for.
    pulls
        What there is of raw food, and what is wanted.
    rests
        Per worker: when the plan has the breaks.
    """

    def __init__(
        self,
        kit: Kitchenry,
        workload: Workload,
        pulls: tuple[PullLine, ...] = (),
        rests: Sequence[Sequence[tuple[int, int]]] = (),
    ) -> None:
        self._kit = kit
        self._workload = workload
        self._rests = rests
        self._short = {line.ingredient: line for line in pulls if line.short >= 1}

    def component(self, item: str) -> str:
        """Name of a component."""
        return self._kit.catalog.components[item].name

    def promise(self, promise: str) -> str:
        """Dish and service of a promise: ``Soup (Dinner, Thu 26 Nov)``; the day if not today's."""
        service, _, dish = promise.partition(":")
        return f"{self._kit.catalog.dishes[dish].name} ({self._service(service)})"

    def is_service(self, service: str) -> bool:
        """Whether a promise is to guests, not the kitchen's own."""
        return service in self._kit.catalog.services

    def closes(self, service: str) -> int:
        """When a service closes (minutes after midnight of the planned day)."""
        found = self._kit.catalog.services[service]
        return (found.date - self._kit.date).days * _DAY + clock_minutes(found.closes)

    def services(self, lots: Iterable[Lot]) -> str:
        """``Lunch and Dinner``: services of some lots on the first day that wants them."""
        found = {service for lot in lots for service, _, _ in lot.dishes if service != OWN}
        services = [self._kit.catalog.services[service] for service in found]
        first = min((one.date for one in services), default=None)
        services.sort(key=lambda one: (one.opens, one.name))
        names = dict.fromkeys(self._service(one.id) for one in services if one.date == first)
        return " and ".join(names)

    def clock(self, minutes: int) -> str:
        """Wall-clock time; with its day where that is not the planned one."""
        day, minute = divmod(minutes, _DAY)
        text = f"{minute // 60:02d}:{minute % 60:02d}"
        return f"{text}, {short_date(self._kit.date + dt.timedelta(day))}" if day else text

    def cause(self, cause: Cause | None, task: int) -> str:
        """What held up ``task``."""
        problem = self._workload.problem
        if cause is None:
            return sentence("nothing but its own minutes")
        if cause.kind == "resource":
            return self.in_use(problem.resources[cause.what].id)
        if cause.kind == "delivery":
            return sentence(
                "its delivery comes at {at}", at=self.clock(problem.tasks[cause.what].release)
            )
        if cause.kind == "process":
            return self._by_itself(cause.what, task)
        if cause.kind == "away":
            return self._away(cause)
        return self.cook_hours(task)

    def cook_hours(self, task: int) -> str:
        """That hands are scarce, and whose where not everybody can do it."""
        skill = self._kit.catalog.operations[self._operation(task)].skill
        cooks = self._workload.cooks
        able = [
            name
            for name in cooks
            if any(own.skill == skill for own in self._kit.catalog.cooks[name].skills)
        ]
        if len(able) == len(cooks):
            return sentence("cook hours")
        if len(able) == 1:
            return sentence(
                "cook hours: 1 of {n} cooks has the skill '{skill}'", n=len(cooks), skill=skill
            )
        return sentence(
            "cook hours: {n_able} of {n} cooks have the skill '{skill}'",
            n_able=len(able),
            n=len(cooks),
            skill=skill,
        )

    def nobody_can(self, task: int) -> str:
        """That nobody who is in can do a task."""
        operation = self._kit.catalog.operations[self._operation(task)]
        station = self._kit.catalog.stations[operation.station].name
        return sentence(
            "nobody who is in has the skill '{skill}' ({station})",
            skill=operation.skill,
            station=station,
        )

    def too_long(self, minutes: int, *, missed: bool) -> str:
        """That a route is ``minutes`` longer than the time there is."""
        hours, rest = divmod(minutes, 60)
        length = (
            sentence("{n_hours} h {n_rest:02d}", n_hours=hours, n_rest=rest)
            if hours
            else sentence("{rest} min", rest=rest)
        )
        start = "; " + sentence("it had to be started on an earlier day") if missed else ""
        longer = sentence(
            "its steps take {length} longer than there is before service", length=length
        )
        return f"{longer}{start}"

    def in_use(self, resource: str) -> str:
        """That a place or vessel, by its id in the problem, has no room."""
        return sentence("{what} in use", what=resource_name(self._kit, resource))

    def no_food(self, jobs: Iterable[int]) -> str:
        """Raw food that ``jobs`` lack: ``no Beef (0 of 3.20 kg)``."""
        lots = [self._workload.lots[job] for job in jobs]
        items = dict.fromkeys(i for lot in lots for i, _ in lot.pulls if i in self._short)
        if not items:
            reasons = (self._workload.problem.jobs[lot.index].impossible for lot in lots)
            return "; ".join(dict.fromkeys(filter(None, reasons)))
        return "; ".join(self.lack(item) for item in items)

    def raw_food(self, item: str) -> str:
        """Name of an ingredient."""
        return self._kit.catalog.ingredients[item].name

    def lack(self, item: str) -> str:
        """How much there is of an ingredient that runs out: ``no Beef (0 of 3.20 kg)``."""
        line = self._short.get(item)
        if line is None:
            return sentence("{what} comes too late", what=self.raw_food(item))
        need = line.need.grams
        have = need - line.short
        if have < 1:
            return sentence("no {what} (0 of {amount})", what=line.name, amount=grams_text(need))
        return sentence(
            "not enough {what} ({amount} of {amount_2})",
            what=line.name,
            amount=grams_text(have),
            amount_2=grams_text(need),
        )

    def _away(self, cause: Cause) -> str:
        """``Ana is on the line 18:40 to 19:40``."""
        cook = self._kit.catalog.cooks[self._workload.cooks[cause.what]]
        begin, end = cause.span or (0, 0)
        rests = self._rests[cause.what] if self._rests else ()
        stretches = away(cook, self._kit.date, self._kit.catalog.kitchen.rules, rests)
        found = next((one for one in stretches if one.start < end and begin < one.end), None)
        if found is None:
            return sentence("{cook} is away from prep", cook=cook.name)
        return sentence(
            "{cook} is {away} {at} to {at_2}",
            cook=cook.name,
            away=_AWAY[found.kind],
            at=self.clock(found.start),
            at_2=self.clock(found.end),
        )

    def _by_itself(self, before: int, task: int) -> str:
        """Unattended minutes, of the route in trouble or of another component that it takes."""
        problem = self._workload.problem
        lot = self._workload.lots[problem.tasks[before].lot]
        mine = self._workload.lots[problem.tasks[task].lot].component
        name = self._kit.catalog.operations[lot.operation].name.lower()
        if mine in {share.component for share in lot.shares}:
            return sentence("unattended minutes of its own route ({name})", name=name)
        return sentence(
            "unattended minutes of {component}, which it takes ({name})",
            component=self.component(lot.component),
            name=name,
        )

    def _operation(self, task: int) -> str:
        return self._workload.lots[self._workload.problem.tasks[task].lot].operation

    def _service(self, service: str) -> str:
        found = self._kit.catalog.services[service]
        if found.date == self._kit.date:
            return found.name
        return f"{found.name}, {short_date(found.date)}"


def resource_name(kit: Kitchenry, resource: str) -> str:
    """What people call a resource of the problem."""
    kind, _, name = resource.partition(":")
    if kind == "station":
        return kit.catalog.stations[name].name
    return kit.catalog.equipment[name].name
