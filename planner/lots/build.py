"""From a day's quantities to its workload: lots, and the scheduling problem they make."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace

from planner.demand.types import DishDemand
from planner.kitchen.route import longest_wait
from planner.lots.batching import BY_THE_RULE, Batching, StageKey, StageLots
from planner.lots.cooling import cooling_waits, merged
from planner.lots.crew import crew_of
from planner.lots.divide import WAVE_MINUTES
from planner.lots.draft import Draft, draft_lots, trim_of
from planner.lots.exposed import exposures_of
from planner.lots.hygiene import HygieneBook
from planner.lots.lacking import Shared, share_out
from planner.lots.promises import Promises, is_last_today
from planner.lots.stages import stages_of
from planner.lots.tasks import Board, LotWork, add_tasks, stage_minutes
from planner.lots.types import Lot, LotShare, Workload
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.types import Quantities, Reason
from planner.schedule.problem import Changeovers, Job, Problem, Wait, Walk


def workload_of(
    kit: Kitchenry,
    demands: tuple[DishDemand, ...],
    quantities: Quantities,
    *,
    pooled: bool = True,
    batching: Batching = BY_THE_RULE,
    food: Shared | None = None,
) -> Workload:
    """Lots and problem of the day; not ``pooled``, each dish's work is kept to itself.

    ``batching`` says where lots are made otherwise than by the rule; ``food`` how food is shared
    out, where that is known already: it does not depend on the lots.
    """
    shared = food or share_out(kit, demands, quantities)
    stages = stages_of(kit, shared.portions, pooled=pooled)
    drafts = draft_lots(kit, quantities, stages, batching)
    crew = crew_of(kit.catalog.kitchen, kit.date)
    start = min((worker.start for worker in crew.workers), default=0)
    closes = kit.calendar.closes(0)
    board = Board(kit, crew, HygieneBook(kit.catalog), start)
    work = _put_on_board(board, drafts, closes)
    _link(board, drafts, work)
    board.waits += cooling_waits(kit.catalog, drafts, work, board.tasks)
    promises = Promises(kit, demands)
    jobs: list[Job] = []
    lots: list[Lot] = []
    for draft in drafts:
        lot = _lot(board, draft, work[draft.index])
        servings, dishes = promises.of(draft)
        if servings:
            _set_due(board, draft, work[draft.index])
        lots.append(replace(lot, dishes=dishes))
        jobs.append(
            Job(
                id=lot.id,
                tasks=tuple(item.task for item in work[draft.index].tasks),
                needs=tuple(sorted({*draft.upstream, *draft.beside})),
                serves=servings,
                impossible=_impossible(kit, draft),
            )
        )
    all_rules = kit.catalog.kitchen.rules
    rules = all_rules.changeovers
    problem = Problem(
        start=start,
        horizon=_horizon(board, closes),
        workers=crew.workers,
        resources=tuple(board.resource_list),
        families=tuple(board.families),
        tasks=tuple(board.tasks),
        jobs=tuple(jobs),
        waits=tuple(merged(board.waits)),
        holds=tuple(board.holds),
        promises=promises.all(),
        changeovers=Changeovers(
            rules.another_food,
            rules.another_operation,
            rules.another_station,
            rules.hand_wash,
            rules.clean,
            tuple(Walk(walk.station, walk.other, walk.minutes) for walk in rules.walks),
            all_rules.clean_every_minutes,
        ),
    )
    problem = replace(problem, exposures=exposures_of(kit.catalog, lots, problem))
    cooks = tuple(cook.id for cook in crew.cooks)
    return Workload(tuple(lots), problem, cooks, _stage_lots(kit, drafts), batching)


def _stage_lots(kit: Kitchenry, drafts: Sequence[Draft]) -> tuple[StageLots, ...]:
    by_stage: dict[StageKey, list[Draft]] = defaultdict(list)
    for draft in drafts:
        by_stage[draft.stage.key].append(draft)
    found = []
    for key, group in by_stage.items():
        stage = group[0].stage
        effort = kit.efforts.of(stage.component, stage.step)
        dues = [[part.need.due for part in draft.slices] for draft in group]
        largest = max(draft.grams_in for draft in group)
        found.append(
            StageLots(
                key,
                tuple(draft.index for draft in group),
                spread=max(map(max, dues)) - min(map(min, dues)),
                joined=any(max(own) - min(own) > WAVE_MINUTES for own in dues),
                hands=effort.hands_on(largest),
                room=effort.vessel > largest * 1.01,
            )
        )
    return tuple(found)


def _impossible(kit: Kitchenry, draft: Draft) -> str:
    names = [kit.catalog.name(item) for item in draft.missing]
    return f"no {', '.join(names)}" if names else ""


def _put_on_board(board: Board, drafts: Sequence[Draft], closes: int) -> dict[int, LotWork]:
    by_stage: dict[StageKey, list[Draft]] = defaultdict(list)
    for draft in drafts:
        by_stage[draft.stage.key].append(draft)
    work: dict[int, LotWork] = {}
    for group in by_stage.values():
        book, minutes = stage_minutes(board.kit, board.crew, group)
        for draft, own, by_worker in zip(group, book, minutes, strict=True):
            work[draft.index] = add_tasks(board, draft, own, by_worker, closes)
    return work


def _link(board: Board, drafts: Sequence[Draft], work: dict[int, LotWork]) -> None:
    """Waits from every lot to those that take from it."""
    for draft in drafts:
        first = work[draft.index].first
        for lot in sorted({*draft.upstream, *draft.beside}):
            before = drafts[lot]
            alone = work[lot].tail
            same_route = before.stage.key == draft.stage.before  # else it is an input
            component, step = before.stage.component, before.stage.step
            least = component.route[step].min_wait_minutes if same_route else 0
            most = longest_wait(board.kit.catalog, component, step) if same_route else None
            board.waits.append(
                Wait(
                    work[lot].last,
                    first,
                    alone + least,
                    None if most is None else alone + max(most, least),
                )
            )


def _set_due(board: Board, draft: Draft, work: LotWork) -> None:
    """What of a lot is wanted as it is: late after its due, useless after its close.

    What other lots take from it is theirs to be late with.
    """
    component = draft.stage.component
    makings = [
        part.need.portion.making
        for part in draft.slices
        if is_last_today(draft, part.need.portion.making)
    ]
    until = max(making.until for making in makings) - work.tail
    # Rounding a batch up makes food that nobody waits for.
    dues = [making.due for making in makings if making.want.reason is not Reason.BATCH]
    due = min(dues) - work.tail if dues else until
    fresh = component.fresh_hours if draft.stage.step == len(component.route) - 1 else None
    earliest = None
    if fresh is not None:
        opens = max(making.want.doors for making in makings)
        earliest = min(due, opens - round(fresh * 60) - work.tail)
    board.tasks[work.last] = replace(
        board.tasks[work.last],
        due=due,
        until=until,
        due_weight=max(making.want.lateness_weight for making in makings),
        earliest_end=earliest,
        fresh_weight=0 if fresh is None else 1,
    )


def _horizon(board: Board, closes: int) -> int:
    ends = [worker.latest_end for worker in board.crew.workers]
    ends += [task.until for task in board.tasks if task.until is not None and task.until <= closes]
    return max([board.start + 1, *ends])


def _lot(board: Board, draft: Draft, work: LotWork) -> Lot:
    component, step = draft.stage.component, draft.stage.step
    shares: dict[str, float] = defaultdict(float)
    trim: dict[str, float] = defaultdict(float)
    for part in draft.slices:
        shares[part.need.portion.component] += part.grams_out
        for item, grams in trim_of(board.kit, draft, part):
            trim[item] += grams
    makings = [part.need.portion.making for part in draft.slices]
    operation = component.route[step].operation
    allergens: frozenset[str] = frozenset()
    for name in shares:
        made = board.kit.catalog.components[name]
        allergens |= board.hygiene.of(made, step).allergens
    return Lot(
        index=draft.index,
        id=f"{draft.index}:{operation}",
        operation=operation,
        food=component.id if component.makes is not None else component.inputs[0].item,
        component=draft.slices[0].need.portion.component,
        step=step,
        cut=component.route[step].cut,
        grams_in=draft.grams_in,
        grams_out=draft.grams_out,
        shares=tuple(LotShare(name, grams) for name, grams in sorted(shares.items())),
        tasks=work.tasks,
        unattended=work.unattended,
        due=draft.due,
        until=max(making.until for making in makings),
        release=board.tasks[work.first].release,
        finishes=all(m.finishes and m.last_step == step + 1 for m in makings),
        upstream=tuple(sorted(draft.upstream.items())),
        pulls=tuple(sorted(draft.pulls.items())),
        stock=tuple(sorted(draft.stock.items())),
        trim=tuple(sorted(trim.items())),
        allergens=allergens,
        missed=any(making.missed for making in makings),
        dish_grams=_dish_grams(draft),
    )


def _dish_grams(draft: Draft) -> tuple[tuple[str, str, float], ...]:
    """Grams that come out of a lot by (service, dish): every want's, as its dishes share it."""
    found: dict[tuple[str, str], float] = defaultdict(float)
    for part in draft.slices:
        shares = part.need.portion.making.want.shares
        whole = sum(share.grams for share in shares)
        for share in shares:
            grams = part.grams_out * share.grams / whole if whole > 0 else 0.0
            found[share.service, share.dish] += grams
    return tuple((service, dish, grams) for (service, dish), grams in sorted(found.items()))
