"""Rules of yield tests and of the yields in use."""

from tests.mutations.mutation import within

ASKING = within(
    "planner/yields/asking.py",
    ("tests/yields/test_bench.py",),
    ("something is on the scale", "if not reading.shown > 0:", "if False:"),
    (
        "a container is lighter than its load",
        "elif reading.tare >= reading.shown:",
        "elif False:",
    ),
    (
        "no more is usable than went in",
        "if balance.usable > balance.gross + balance.tolerance and not test.may_gain:",
        "if False:",
    ),
    ("trim leaves something", "elif balance.usable <= 0:", "elif False:"),
    (
        "an open balance is asked about",
        "if not balance.closes and not excused:",
        "if False:",
    ),
    ("units are held against each other", "if unit != reading.unit and", "if False and"),
)

JUDGING = within(
    "planner/yields/judging.py",
    ("tests/yields/test_judging.py",),
    (
        "what is asked about waits",
        "standing = Standing.ASKED if questions else Standing.COUNTS",
        "standing = Standing.COUNTS",
    ),
    (
        "what is left out does not count",
        "        if answers.get(test.key) is Answer.LEFT_OUT:\n            judged",
        "        if False:\n            judged",
    ),
    (
        "what somebody said to count speaks for others",
        "(not one.asked or answers.get(one.key) is Answer.COUNTS)",
        "not one.asked",
    ),
    (
        "older crops do not count",
        "        elif since is not None and test.date < since:",
        "        elif False:",
    ),
)

LEARNED = within(
    "planner/yields/learned.py",
    ("tests/yields/test_learned.py",),
    (
        "a large load says more",
        "own = supplier + noise / one.kilos",
        "own = supplier + noise",
    ),
    (
        "suppliers differ",
        "prior = without + point.supplier_variance",
        "prior = without",
    ),
    (
        "how tests scatter tells the noise",
        "fit -= ((one.tests - 1) * math.log(noise) + one.squares / noise) / 2",
        "fit -= 0",
    ),
)

DECIDING = within(
    "planner/yields/decide.py",
    ("tests/yields/test_keys.py",),
    ("few tests do not decide", "if tests < _TESTS:", "if False:"),
    ("an open question holds the rule", "if lesson.open:", "if False:"),
    (
        "a change holds the rule",
        "if any(drift.kind is DriftKind.TIME for drift in drifts):",
        "if False:",
    ),
    ("what is not worth it is left", "if abs(own.fraction - now) < _WORTH:", "if False:"),
    ("no more comes out than went in", "most = 10.0 if known.may_gain else 1.0", "most = 10.0"),
)

TRIMS = (
    *within(
        "planner/yields/trims.py",
        ("tests/yields/test_trims.py",),
        (
            "a kind that is not weighed tells nothing",
            "if test.off > 0 and (test.whole or item in test.kept)",
            "if test.off > 0",
        ),
        (
            "shares leave no less than nothing for waste",
            "if total > 1 else inside",
            "if False else inside",
        ),
    ),
    *within(
        "planner/yields/judging.py",
        ("tests/yields/test_trims.py",),
        ("odd shares of the trim are asked about", "if far or share > _ALL_OF_IT:", "if False:"),
    ),
    *within(
        "planner/yields/bench.py",
        ("tests/yields/test_trims.py",),
        (
            "only where all is weighed is the rest known to be waste",
            "told and trim and balance.closes",
            "told and trim",
        ),
    ),
    *within(
        "planner/yields/asking.py",
        ("tests/yields/test_bench.py",),
        (
            "trim alone tells a wrong unit",
            "if trim and not balance.usable_weighed and usual < 1:",
            "if False:",
        ),
    ),
    *within(
        "planner/quantities/credits.py",
        ("tests/yields/test_trims.py",),
        ("by-products count by the share in use", "loss * trim.in_use", "loss * trim.share"),
    ),
    *within(
        "planner/lots/draft.py",
        ("tests/yields/test_trims.py",),
        ("lots leave trim by the share in use", "loss * trim.in_use", "loss * trim.share"),
    ),
    *within(
        "planner/check/facts.py",
        ("tests/yields/test_trims.py",),
        (
            "the checker knows the share in use",
            "one.share if one.own is None else one.own.share",
            "one.share",
        ),
    ),
)

TICKED = within(
    "service/usecases/rates.py",
    ("tests/service/api/test_rates.py",),
    (
        "set-ups are learned only where Start is ticked before them",
        "set_up_ticked=wanted.rules.set_up_ticked,",
        "set_up_ticked=True,",
    ),
)

IN_USE = within(
    "planner/kitchen/route.py",
    ("tests/yields/test_keys.py",),
    (
        "the kitchen's own yield is used",
        "return None if usual is None else in_use(usual, catalog.kitchen.rules.pull_level)",
        "return usual",
    ),
    ("a cut has a yield of its own", "for of_cut in (cut, None):", "for of_cut in (None,):"),
)

ALL = (*ASKING, *JUDGING, *LEARNED, *DECIDING, *TRIMS, *TICKED, *IN_USE)
