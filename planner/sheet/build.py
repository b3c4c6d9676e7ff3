"""From a plan to the morning's sheets: one per cook, with the wall chart and the kitchen's head."""

from collections.abc import Mapping

from planner.kitchen.document import Kitchen
from planner.money.of_day import day_costs
from planner.plan import Plan
from planner.sheet.alerts import alerts
from planner.sheet.away import away
from planner.sheet.batch_types import SheetBatch
from planner.sheet.batches import sheet_batch
from planner.sheet.head import labor_lines, objective, services
from planner.sheet.lanes import cook_lane, equipment_lanes
from planner.sheet.learners import beside
from planner.sheet.places import equipment, held_times
from planner.sheet.pulls import cook_pulls, kitchen_pulls
from planner.sheet.runs import batch_of_task, runs, sources
from planner.sheet.setup import set_up_lines
from planner.sheet.straight import straight_to_the_line
from planner.sheet.taken import left_out, taken_lines
from planner.sheet.types import CookSheet, KitchenSheet, Lane, PullItem
from planner.sheet.view import PlanView
from planner.troubles.words import remedy_line, trouble_lines


def build_sheet(kitchen: Kitchen, plan: Plan) -> KitchenSheet:
    """Everything the pages show of one planned morning.

    ``kitchen`` must be the one the plan was made from: names, cuts and containers are looked up in
    it by id.
    """
    view = PlanView(kitchen, plan)
    found = runs(view)
    held = held_times(view)
    by_lot = sources(found)
    batches = {run.number: sheet_batch(view, run, by_lot, held) for run in found}
    run_of_task = batch_of_task(found)
    straight, unserved = straight_to_the_line(view)
    taken = taken_lines(view, straight)
    pulls = cook_pulls(view, taken, run_of_task)
    cooks = tuple(
        _cook_sheet(
            view,
            worker,
            tuple(batches[run.number] for run in found if run.worker == worker),
            equipment(view, [run for run in found if run.worker == worker], held),
            pulls,
        )
        for worker in range(len(view.problem.workers))
    )
    lanes = (
        *(cook_lane(sheet, found) for sheet in cooks),
        *equipment_lanes(view, held, run_of_task, batches),
    )
    start, end = _span(cooks, lanes)
    return KitchenSheet(
        kitchen=plan.kitchen,
        date=plan.date,
        services=services(view),
        cooks=cooks,
        lanes=lanes,
        pulls=kitchen_pulls(view, taken, run_of_task, straight),
        alerts=alerts(view),
        troubles=trouble_lines(plan),
        remedies=tuple(remedy_line(remedy) for remedy in plan.remedies),
        ahead=plan.quantities.ahead,
        start=start,
        end=end,
        labor_minutes=plan.labor.total,
        saved_minutes=plan.labor.saved,
        dish_by_dish_minutes=plan.labor.dish_by_dish,
        labor=labor_lines(plan),
        currency=kitchen.currency,
        objective=objective(plan),
        status=plan.solution.status.value,
        comparable=plan.labor.comparable,
        cleans=plan.labor.cleans,
        clean_minutes=plan.labor.clean_minutes,
        short_portions=plan.short_portions,
        straight=straight,
        left_out=left_out(view, unserved),
        costs=day_costs(kitchen, plan),
    )


def _cook_sheet(
    view: PlanView,
    index: int,
    batches: tuple[SheetBatch, ...],
    used: tuple[str, ...],
    pulls: Mapping[int, tuple[PullItem, ...]],
) -> CookSheet:
    cook = view.catalog.cooks[view.plan.workload.cooks[index]]
    worker = view.worker(index)
    return CookSheet(
        cook=cook.id,
        name=cook.name,
        initials=cook.initials,
        shift_start=worker.start,
        shift_end=worker.end,
        away=away(cook, view.plan.date, view.kitchen.rules, view.rests[index]),
        set_up=set_up_lines(batches, used),
        pulls=pulls.get(index, ()),
        batches=batches,
        hands_on=sum(batch.hands_on for batch in batches),
        changeover=sum(
            batch.set_up + batch.changeover + batch.hand_wash + batch.clean for batch in batches
        ),
        finish=max((batch.end for batch in batches), default=None),
        beside=beside(view, cook.id),
    )


def _span(cooks: tuple[CookSheet, ...], lanes: tuple[Lane, ...]) -> tuple[int, int]:
    """First and last minute that the chart must show."""
    blocks = [block for lane in lanes for block in lane.blocks]
    starts = [sheet.shift_start for sheet in cooks] + [block.start for block in blocks]
    ends = [sheet.shift_end for sheet in cooks] + [block.end for block in blocks]
    return min(starts, default=0), max(ends, default=0)
