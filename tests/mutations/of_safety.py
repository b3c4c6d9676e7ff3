"""Rules of time and temperature: cooling chains, and minutes out of temperature control."""

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

ALL = (*MODEL, *PLACING, *CHAINS, *EXPOSURES, *CHECKER)
