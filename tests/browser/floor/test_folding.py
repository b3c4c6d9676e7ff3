"""What the device makes of ticks, beside what the server makes of them."""

import random

import pytest

from planner.floor.state import Floor, floor_of
from planner.floor.ticks import Act, Tick, Weighed, Weight
from tests.browser.floor.floor_server import FloorServer
from tests.browser.floor.hands import Open

pytestmark = pytest.mark.browser


def _days(dice: random.Random) -> list[Tick]:
    acts = [Act.BEGUN, Act.DONE, Act.HEARD, Act.PROBLEM, Act.WEIGHED, Act.TAKEN_BACK]
    found = []
    for number in range(dice.randrange(14)):
        act = dice.choice(acts)
        found.append(
            Tick(
                key=f"k{number:02}",
                act=act,
                at=float(dice.randrange(400, 408)),
                cook=dice.choice(["ana", "ben"]),
                tasks=tuple(sorted(dice.sample("abc", dice.randrange(1, 4)))),
                reason="knife" if act is Act.PROBLEM else "",
                weight=Weight(Weighed.TRIM, 500, 100) if act is Act.WEIGHED else None,
                takes_back=f"k{dice.randrange(14):02}" if act is Act.TAKEN_BACK else "",
            )
        )
    return found


def test_the_device_folds_ticks_as_the_server_does(server: FloorServer, phone: Open) -> None:
    """Whatever of a day is known to the server and what only to the device: one truth."""
    dice = random.Random(7)  # noqa: S311
    days = [_days(dice) for _ in range(300)]
    page = phone("/cooks/ines")
    sent = [[_plain(one) for one in day] for day in days]
    folder = server.links().assets
    found = page.evaluate(
        """async ([days, folder]) => {
            const { fold } = await import(`${folder}/floor/fold.js`);
            const none = { tasks: {}, problems: [], weighings: [] };
            return days.map(day => {
                const half = Math.floor(day.length / 2);
                const kept = day.slice(0, half).filter(one => one.act !== 'taken back');
                const known = fold(none, kept, Number);
                return [fold(none, day, Number), fold(known, day, Number)];
            });
        }""",
        [sent, folder],
    )
    for day, (whole, on_top) in zip(days, found, strict=True):
        assert _told(whole) == _floor(floor_of(day)), day
        assert _told(on_top) == _floor(floor_of(day)), day


def _plain(one: Tick) -> dict[str, object]:
    weight = one.weight
    return {
        "key": one.key,
        "act": one.act.value,
        "at": str(one.at),
        "cook": one.cook,
        "tasks": list(one.tasks),
        "reason": one.reason,
        "weight": {"kind": "trim", "grams": weight.grams} if weight else None,
        "takes_back": one.takes_back,
    }


def _told(found: dict[str, dict[str, dict[str, dict[str, str] | None]]]) -> object:
    states = {
        task: tuple(
            said["key"] if (said := state[act]) else None for act in ("begun", "done", "heard")
        )
        for task, state in found["tasks"].items()
    }
    kept = {task: state for task, state in states.items() if any(state)}
    return (
        kept,
        sorted(one["said"]["key"] for one in found["problems"]),  # type: ignore[index]
        sorted(one["said"]["key"] for one in found["weighings"]),  # type: ignore[index]
    )


def _floor(floor: Floor) -> object:
    return (
        {
            task: tuple(
                said.key if said else None for said in (state.begun, state.done, state.heard)
            )
            for task, state in floor.tasks.items()
        },
        sorted(one.said.key for one in floor.problems),
        sorted(one.said.key for one in floor.weighings),
    )
