"""What the benchmark's kitchens are made of, laid down before any solver is tuned on them.

All figures are starting guesses; nothing is measured in a real kitchen. Times are minutes after
midnight.
"""

from dataclasses import dataclass, field, fields
from typing import Any

KINDS = ("loose", "tight")


def _of(what: str, default: Any = None) -> Any:
    """A parameter with its meaning; one without a default differs from size to size."""
    if default is None:
        return field(metadata={"what": what})
    return field(default=default, metadata={"what": what})


@dataclass(frozen=True, kw_only=True)
class Size:
    """All parameters of one size of kitchen. Shares and odds are fractions of one."""

    name: str
    lots: int = _of("lots, exactly")
    cooks: int = _of("cooks")
    foods: int = _of("foods that dishes are made of")
    services: tuple[int, ...] = _of("services open at")
    service_shares: tuple[float, ...] = _of("share of the dishes that each service has")
    shift_starts: tuple[int, ...] = _of("shifts begin at, cooks in turn")
    boards: int = _of("boards (contact: each unit has its own hygiene state)")
    sinks: int = _of("sinks (contact)")
    stove_places: int = _of("cooks at the stove at once")
    burners: int = _of("burners")
    ovens: int = _of("oven decks")
    blenders: int = _of("blenders (contact)")
    chiller_shelves: int = _of("shelves of the chiller")
    bench_places: int = _of("cooks at the packing bench at once")

    load_loose: float = _of(
        "loose: hands-on minutes at pace 1, of all shift minutes but breaks", 0.4
    )
    load_tight: float = _of("tight: the same", 0.6)
    shift_minutes: int = _of("minutes of a shift", 480)
    overtime: int = _of("most minutes of overtime", 60)
    break_minutes: int = _of("minutes of each cook's break", 30)
    break_after: tuple[int, int] = _of(
        "it begins so many minutes into the shift, from, to", (180, 270)
    )
    paces: tuple[float, ...] = _of("paces, one per cook and operation", (0.8, 0.9, 1.0, 1.1, 1.25))
    able: float = _of("odds that a cook can do an operation (washing, packing: all can)", 0.7)
    able_least: int = _of("cooks who can do an operation, at least", 2)

    components: tuple[int, int] = _of("components of a dish, from, to", (2, 4))
    portions: tuple[int, int] = _of("portions of a dish, from, to", (10, 60))
    weights: tuple[int, ...] = _of(
        "weights of a dish (short portions) and of its lateness", (1, 1, 2, 3)
    )
    pooled_services: int = _of(
        "services in a row whose washing, peeling, halving and cutting is pooled", 2
    )
    raw_animal: float = _of("share of foods that are raw animal food", 0.2)
    allergenic: float = _of("share of foods with an allergen", 0.3)
    delivered: float = _of("share of foods that come during the morning", 0.1)
    delivery_after: tuple[int, int] = _of(
        "they come so many minutes into the day, from, to", (30, 120)
    )
    washed: float = _of("odds that a food not of animals is washed", 0.9)
    peeled: float = _of("odds that it is peeled", 0.5)
    halved: float = _of("odds that it is halved", 0.3)
    cuts: int = _of("cuts that each food may be cut into", 2)
    cut: float = _of("odds that a component is cut (raw animal food always is)", 0.85)
    cooked: float = _of("odds that a component is cooked (raw animal food always is)", 0.75)
    chilled: float = _of("odds that what is cooked is chilled", 0.4)
    packed: float = _of(
        "odds that a component is packed (what is neither cut nor cooked always is)", 0.6
    )
    split: float = _of("odds that a stage is too much for one lot and becomes two", 0.1)

    unattended: float = _of("share of lots that cook or cool by themselves and are taken out", 0.2)
    unattended_minutes: tuple[int, int] = _of(
        "minutes they do, from, to, in steps of 15", (30, 240)
    )
    unattended_room: float = _of(
        "but at most this share of the time there is before it is due, hands-on minutes apart", 0.3
    )
    take_out: tuple[int, int] = _of("minutes of taking out, from, to", (1, 3))
    take_out_within: tuple[int, int] = _of("taken out within so many minutes, from, to", (10, 30))
    settle: tuple[int, int] = _of("minutes that chilling takes without being taken out", (15, 45))
    into_chiller: int = _of("cooked food goes into the chiller within so many minutes", 30)
    longest_wait: float = _of(
        "odds of a longest wait between two other stages of one component", 0.15
    )
    longest_wait_minutes: tuple[int, int] = _of("minutes of it, from, to", (30, 120))
    due_before: tuple[int, int] = _of("due so many minutes before the service, from, to", (0, 45))
    service_minutes: int = _of("a lot is of use until so many minutes after the service opens", 120)
    fresh: float = _of("odds that a component must be fresh", 0.25)
    fresh_minutes: tuple[int, int] = _of(
        "ended no sooner than so long before the service", (90, 240)
    )
    set_up: tuple[int, int] = _of("minutes of set-up of an operation, from, to", (1, 4))
    changeovers: tuple[int, ...] = _of(
        "minutes for another food, operation, station, hand wash, clean of a surface",
        (1, 2, 3, 1, 4),
    )


BISTRO = Size(
    name="bistro",
    lots=30,
    cooks=3,
    foods=5,
    services=(720, 1080),
    service_shares=(0.4, 0.6),
    shift_starts=(480, 480, 660),
    boards=3,
    sinks=1,
    stove_places=2,
    burners=4,
    ovens=2,
    blenders=1,
    chiller_shelves=4,
    bench_places=2,
)
HOUSE = Size(
    name="house",
    lots=80,
    cooks=5,
    foods=10,
    services=(720, 1080),
    service_shares=(0.35, 0.65),
    shift_starts=(420, 480, 480, 600, 660),
    boards=4,
    sinks=2,
    stove_places=3,
    burners=6,
    ovens=4,
    blenders=1,
    chiller_shelves=8,
    bench_places=3,
)
HOTEL = Size(
    name="hotel",
    lots=300,
    cooks=12,
    foods=28,
    services=(600, 720, 900, 1110),
    service_shares=(0.15, 0.3, 0.2, 0.35),
    shift_starts=(300, 360, 420, 480, 600, 660),
    boards=10,
    sinks=3,
    stove_places=6,
    burners=12,
    ovens=10,
    blenders=2,
    chiller_shelves=24,
    bench_places=6,
)
COMMISSARY = Size(
    name="commissary",
    lots=1000,
    cooks=40,
    foods=80,
    services=(540, 660, 780, 900, 1080),
    service_shares=(0.1, 0.2, 0.25, 0.2, 0.25),
    shift_starts=(240, 300, 360, 480, 600),
    boards=32,
    sinks=8,
    stove_places=16,
    burners=36,
    ovens=30,
    blenders=4,
    chiller_shelves=80,
    bench_places=20,
)
SIZES: dict[str, Size] = {size.name: size for size in (BISTRO, HOUSE, HOTEL, COMMISSARY)}


def parameter_table() -> str:
    """All parameters of all sizes as a Markdown table."""
    names = list(SIZES)
    lines = [
        f"| parameter | meaning | {' | '.join(names)} |",
        f"| --- | --- |{' --- |' * len(names)}",
    ]
    for spec in fields(Size):
        if spec.name != "name":
            values = " | ".join(_told(spec.name, getattr(SIZES[name], spec.name)) for name in names)
            lines.append(f"| `{spec.name}` | {spec.metadata['what']} | {values} |")
    return "\n".join(lines) + "\n"


def _told(name: str, value: Any) -> str:
    if name in {"services", "shift_starts"}:
        return ", ".join(f"{minute // 60:02d}:{minute % 60:02d}" for minute in value)
    if isinstance(value, tuple):
        return ", ".join(map(str, value))
    return str(value)
