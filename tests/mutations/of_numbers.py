"""Rules of the kitchen's own numbers: learned rates, mornings, forecasts, costs."""

from tests.mutations.mutation import within

FIT = within(
    "planner/rates/fit.py",
    ("tests/rates/test_fit.py",),
    (
        "a batch counts by the chance that its ticks are right",
        "state.inlier = right / (right + state.wrong / (2 * _REACH))",
        "state.inlier = np.ones(count)",
    ),
    (
        "figures begin at the file's",
        "mean = covariance @ (from_data + prior * design.prior)",
        "mean = covariance @ (from_data + prior * state.theta)",
    ),
    (
        "what cooks may differ by is averaged over",
        "for tau in math.sqrt(state.cooks) * _COOKS_GRID:",
        "for tau in [math.sqrt(state.cooks) * 0.5]:",
    ),
    (
        "a set-up is not divided by the pace",
        "np.add.at(slopes, (rows, self.cook), 1 - at_set_up / total)",
        "np.add.at(slopes, (rows, self.cook), 1)",
    ),
)
NETWORK = within(
    "planner/rates/network.py",
    ("tests/rates/test_mornings.py",),
    (
        "food waits for what it is made of",
        "if wait.before in place and wait.after in place:",
        "if False:",
    ),
    (
        "a cook does one task after the other",
        "node.cook_before = lane[position - 1] if position else None",
        "node.cook_before = None",
    ),
    (
        "a unit is free when who had it is done",
        "nodes[first].room_before.append((last, earlier.tail))",
        "pass",
    ),
    (
        "a cook is away for breaks and the line",
        "node.away = tuple(one for one, (start, _) in planned if since <= start < begin)",
        "node.away = ()",
    ),
)
MORNINGS = within(
    "planner/rates/mornings.py",
    ("tests/rates/test_mornings.py",),
    (
        "what is drawn is right on average",
        "noise = doubt.spread * of_batch[node.batch] - doubt.spread**2 / 2",
        "noise = doubt.spread * of_batch[node.batch]",
    ),
    (
        "a rate that is wrong is wrong all morning",
        "        total = total + drawn[key]",
        "        total = total + 0 * drawn[key]",
    ),
)
TICKED = within(
    "planner/rates/ticked.py",
    ("tests/rates/test_ticked.py",),
    ("batches ticked together tell nothing", "if later - done <= _TOGETHER:", "if False:"),
    ("what was not timed tells nothing", "if review.took is None:", "if False:"),
    (
        "units of all lots count",
        "units += work.grams_in * step.units_per_gram + step.units_per_lot",
        "units = work.grams_in * step.units_per_gram + step.units_per_lot",
    ),
)
NEWSVENDOR = within(
    "planner/forecast/newsvendor.py",
    ("tests/forecast/test_newsvendor.py",),
    (
        "the ratio is shortage to both",
        "return min(self.shortage / (self.shortage + self.leftover), SUREST)",
        "return min(self.leftover / (self.shortage + self.leftover), SUREST)",
    ),
    (
        "food that keeps is lost only at its end",
        "until_last = demand.over(costs.keeps)",
        "until_last = demand",
    ),
    (
        "spread beyond chance counts",
        "extra = self.sd**2 - self.mean",
        "extra = 0.0",
    ),
)
HISTORY = within(
    "planner/forecast/history.py",
    ("tests/forecast/test_history.py",),
    ("a dish stands once for a service", "        if key in seen:", "        if False:"),
    ("no count is below zero", "    if sale.count < 0:", "    if False:"),
    (
        "closed weekdays are no gaps",
        "return (Gap(service, d) for d in whole if d.weekday() in usual and d not in days)",
        "return (Gap(service, d) for d in whole if d not in days)",
    ),
)
WANTS = within(
    "planner/quantities/wants.py",
    ("tests/quantities/test_wants.py",),
    (
        "only food that keeps has a level of its own",
        "if component is None or component.shelf_life_days < 2:",
        "if component is None:",
    ),
    ("and is made up to it", "joint = max(joint, more)", "joint = joint + 0 * more"),
)
RAN_OUT = within(
    "planner/forecast/ran_out.py",
    ("tests/forecast/test_ran_out.py",),
    (
        "what ran out was wanted more than it was sold",
        "    if not day.ran_out:",
        "    if True:",
    ),
    (
        "an answer follows from all days together",
        "before, share = share, sum(values) / guests",
        "before = share",
    ),
    (
        "a dish that always runs out has an end",
        "return min(mean + sd * hazard, most)",
        "return (mean + sd * hazard)",
    ),
    (
        "nothing of the day or later is looked at",
        "if 0 < (before - date).days <= _DAYS and dish in counts",
        "if dish in counts",
    ),
    (
        "without guests a weekday is its own measure",
        "return {date: max(0.5, means[date.weekday()]) for date in recent}",
        "return {date: 1.0 for date in recent}",
    ),
)
KEEPING = within(
    "planner/forecast/keeping.py",
    ("tests/forecast/test_names.py",),
    (
        "another answer about what ran out is asked about",
        "if Counted(sale.count, ran_out) == before:",
        "if sale.count == before.count:",
    ),
    (
        "a line that does not say contradicts nothing",
        "before.ran_out if sale.ran_out is None else sale.ran_out",
        "bool(sale.ran_out)",
    ),
)
CHOICE = within(
    "planner/forecast/choose.py",
    ("tests/forecast/test_models.py", "tests/forecast/test_service.py"),
    (
        "the least off is used",
        "scores.sort(key=lambda one: (one.off, one.name != NAIVE))",
        "scores.sort(key=lambda one: (-one.off, one.name != NAIVE))",
    ),
)
MONEY = within(
    "planner/money/food.py",
    ("tests/money/test_costs.py", "tests/outside/test_costs.py"),
    (
        "by-products carry no cost",
        "    if one.by_product:",
        "    if False:",
    ),
    (
        "what is of use is not thrown away",
        "grams[ingredient] = grams.get(ingredient, 0.0) + lost * (1 - of_use)",
        "grams[ingredient] = grams.get(ingredient, 0.0) + lost",
    ),
    (
        "all that goes in is paid for",
        "per_gram=sum(line.cost for line in lines),",
        "per_gram=max(line.cost for line in lines) * 0.9,",
    ),
)
LABOR = within(
    "planner/money/labor.py",
    ("tests/money/test_costs.py",),
    (
        "set-ups and changeovers are paid",
        "minutes = task.minutes[item.worker] + item.lead.total",
        "minutes = task.minutes[item.worker]",
    ),
)
DISHES = within(
    "planner/money/labor.py",
    ("tests/money/test_of_day.py",),
    (
        "what no dish wants is the kitchen's own",
        "if grams and own > _CRUMB:",
        "if False:",
    ),
)
UNDER_WAY = (
    *within(
        "planner/rates/network.py",
        ("tests/rates/test_under_way.py",),
        ("what is done is done", "if item.end <= now:", "if False:"),
        (
            "nothing begins before now",
            "node.present = max(node.present, now, under_way.free.get(item.worker, now))",
            "node.present = max(node.present, under_way.free.get(item.worker, 0))",
        ),
        (
            "a cook who comes later is not there",
            "under_way.free.get(item.worker, now)",
            "now",
        ),
        (
            "an oven is not ready before it was told",
            "node.floor = max(node.floor, under_way.ready.get(item.task, node.floor))",
            "pass",
        ),
        (
            "breaks that are over are not taken again",
            "if under_way is not None and start < under_way.now:",
            "if False:",
        ),
        (
            "what somebody says it takes is taken for its mean",
            "elif item.end > max(item.start + node.work + node.paused, now + 1):",
            "elif False:",
        ),
    ),
    *within(
        "planner/rates/mornings.py",
        ("tests/rates/test_under_way.py",),
        (
            "what runs takes longer than it has taken",
            "if elapsed <= 0 or doubt.spread <= 0:",
            "if True:",
        ),
    ),
    *within(
        "planner/rates/chances.py",
        ("tests/rates/test_under_way.py",),
        (
            "services that are over have no chance",
            "if under_way is not None and demand.until <= under_way.now:",
            "if False:",
        ),
    ),
)
ALL = (
    *FIT,
    *NETWORK,
    *MORNINGS,
    *TICKED,
    *NEWSVENDOR,
    *HISTORY,
    *RAN_OUT,
    *KEEPING,
    *WANTS,
    *CHOICE,
    *MONEY,
    *LABOR,
    *DISHES,
    *UNDER_WAY,
)
