"""Ways to a plan, for the same instances and time; each result is checked and scored alike."""

from collections.abc import Callable
from dataclasses import dataclass

from tests.bench.generate import Instance
from tests.bench.peers import by_hand, planner
from tests.bench.peers.outcome import Outcome

Plan = Callable[[Instance, float, int], Outcome]
"""A way to a plan in so many seconds, with a seed."""


@dataclass(frozen=True, slots=True)
class Peer:
    """A way to a plan; ``timed`` where more seconds could give a better one."""

    name: str
    what: str
    timed: bool
    plan: Plan


def _at_once(plan: Callable[[Instance], Outcome]) -> Plan:
    def planned(instance: Instance, _seconds: float, _seed: int) -> Outcome:
        return plan(instance)

    return planned


def _library(name: str) -> Plan:
    """One of the library's two models; it is loaded only where it is asked for."""

    def planned(instance: Instance, seconds: float, seed: int) -> Outcome:
        try:
            from tests.bench.peers import shop  # noqa: PLC0415 - an extra
        except ModuleNotFoundError as error:
            return Outcome(None, None, "not tried", note=f"{error.name} is not installed")
        found: Outcome = getattr(shop, name)(instance, seconds, seed)
        return found

    return planned


OURS = "ours"
PEERS: dict[str, Peer] = {
    peer.name: peer
    for peer in (
        Peer(
            "dish by dish",
            "by hand, one dish after the other",
            False,
            _at_once(by_hand.dish_by_dish),
        ),
        Peer("sous chef", "by hand, like work together", False, _at_once(by_hand.sous_chef)),
        Peer(
            "constructive", "this planner without its search", False, _at_once(planner.constructive)
        ),
        Peer("one model", "this planner's model of everything at once", True, planner.one_model),
        Peer("library", "PyJobShop with set-up times", True, _library("with_set_ups")),
        Peer("bare library", "PyJobShop without set-up times", True, _library("without_set_ups")),
        Peer(OURS, "this planner", True, planner.ours),
    )
}
