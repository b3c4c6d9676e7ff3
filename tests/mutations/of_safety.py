"""Rules of safety: cooling chains, minutes out of temperature control, cleans by the clock."""

from tests.mutations.mutation import within

MODEL = within(
    "planner/schedule/exposures.py",
    ("tests/schedule/test_exposed.py", "tests/outside/test_optimum.py"),
    ("a sum has its own minutes", "model.add(total >= own + spent)", "model.add(total >= spent)"),
    ("and those before", "for spent in (exposure.spent, *before):", "for spent in (0,):"),
)

PLACING = within(
    "planner/schedule/exposed.py",
    ("tests/schedule/test_exposed.py",),
    ("what is out too long wherever it goes is left", "return NOWHERE", "return None"),
    (
        "what comes after stays within its limit",
        "if there and _sum(state, index) > exposure.limit:",
        "if False:",
    ),
)

CHAINS = within(
    "planner/lots/cooling.py",
    ("tests/lots/test_cooling.py",),
    (
        "the cold lot's own minutes are taken off",
        "chain.limit.minutes - slowest - alone",
        "chain.limit.minutes - alone",
    ),
    ("the shortest most of two waits holds", "min(limits, default=None)", "wait.maximum"),
    (
        "a clock from the start counts the hot lot's own minutes",
        "Wait(hot.first, cold.first, 0, most - slowest)",
        "Wait(hot.first, cold.first, 0, most)",
    ),
)

EXPOSURES = within(
    "planner/lots/exposed.py",
    ("tests/lots/test_exposed.py",),
    (
        "only a kill step forgets",
        "return _Left(() if kills else (*before, *ended))",
        "return _Left((*before, *ended))",
    ),
    (
        "an endless wait may pass the limit",
        "(inf if wait is None else wait)",
        "(0 if wait is None else wait)",
    ),
    ("those before a sum are kept with it", "kept.update(every[index].after)", "pass"),
)

CHECKER = (
    *within(
        "planner/check/exposures.py",
        ("tests/check/test_timetable.py",),
        ("a sum over its limit", "minutes > exposure.limit:", "False:"),
        ("what was out before", "earlier = exposure.spent", "earlier = 0"),
        ("the sums before", "max(earlier, _minutes(problem, done, other) or 0)", "earlier"),
    ),
    *within(
        "planner/check/cooling.py",
        ("tests/check/test_quantities.py",),
        (
            "cold in time",
            "if takes is None or takes + own > clock.minutes:",
            "if takes is None:",
        ),
        (
            "a limit there must be",
            "if limit is None:\n        return None",
            "if limit is None:\n        return 0",
        ),
    ),
    *within(
        "planner/check/out_of_cold.py",
        ("tests/lots/test_exposed.py",),
        ("food out too long", "out.minutes > limit:", "False:"),
        ("a wait at room temperature counts", "work.start - before.at +", "0 +"),
    ),
)

_CLEANS = ("tests/schedule/test_cleans.py", "tests/check/test_timetable.py")

CLEANS = (
    *within(
        "planner/schedule/in_use.py",
        (*_CLEANS, "tests/schedule/test_reinsert.py"),
        ("a use too late for its run", "latest = end - every", "latest = 0"),
        (
            "nothing before a run that it makes too long",
            "return _run_end(state, uses, at) > begun + every",
            "return False",
        ),
        (
            "a hold over several tasks is looked at again at its end",
            "if at and not cleaned and is_over(state, uses, at - 1, end):",
            "if False:",
        ),
    ),
    *within(
        "planner/schedule/removal.py",
        _CLEANS,
        (
            "those behind a clean that is taken out",
            "others = joined_by(state, hold) or ([] if after is None else [after])",
            "others = [] if after is None else [after]",
        ),
    ),
    *within(
        "planner/schedule/cleans.py",
        _CLEANS,
        ("a clean that the clock asks for stays", "if last > begun + every:", "if False:"),
        ("one that it does not goes", "if last > begun + every:", "if True:"),
        (
            "a unit may have been in use before",
            "begin if hold.since is None else min(begin, hold.since)",
            "begin",
        ),
    ),
    *within(
        "planner/schedule/upkeep.py",
        ("tests/outside/test_optimum.py",),
        (
            "a hold ends in time for its run",
            "model.add(end <= own.begun + every)",
            "model.add(end <= own.begun + every + 1000)",
        ),
        (
            "a clean takes its minutes",
            "problem.changeovers.clean * cleaned",
            "0 * cleaned",
        ),
    ),
    *within(
        "planner/check/cleans.py",
        ("tests/check/test_timetable.py",),
        ("a unit in use for too long", "elif end > since + every:", "elif False:"),
        ("a clean begins anew", "if since is None or clean:", "if since is None:"),
        (
            "a clean that is due is among those named",
            "if hold in unclean and hold not in a.cleaned:",
            "if False:",
        ),
    ),
    *within(
        "planner/replan/stand.py",
        ("tests/replan/test_stand.py",),
        (
            "a clean board keeps its hours",
            "hygiene == CLEAN and not due",
            "hygiene == CLEAN",
        ),
        (
            "but for what was cleaned since",
            "if left is None or index in cleaned or unclean:",
            "if left is None:",
        ),
    ),
)

ALL = (*MODEL, *PLACING, *CHAINS, *EXPOSURES, *CLEANS, *CHECKER)
