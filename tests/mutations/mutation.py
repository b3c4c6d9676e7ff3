"""What a mutation is: one rule taken out of one file, and the tests that ought to fail for it."""

from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[2]


@dataclass(frozen=True, slots=True)
class Mutation:
    """``old`` stands once in ``file`` and becomes ``new``; then one of ``tests`` must fail."""

    rule: str
    file: str
    old: str
    new: str
    tests: tuple[str, ...]

    def applied(self, text: str) -> str:
        """The file's text without the rule.

        Raises
        ------
        ValueError
            ``old`` does not stand there just once: the code has moved on.
        """
        if text.count(self.old) != 1:
            raise ValueError(
                f"{self.file}: {self.old!r} stands there {text.count(self.old)} times; "
                f"say anew what takes away: {self.rule}"
            )
        return text.replace(self.old, self.new)


def within(
    file: str, tests: tuple[str, ...], *changes: tuple[str, str, str]
) -> tuple[Mutation, ...]:
    """Mutations of one file: (rule, old, new) each, all to be noticed by the same tests."""
    return tuple(Mutation(rule, file, old, new, tests) for rule, old, new in changes)
