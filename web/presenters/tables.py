"""A table as pages show it, whatever it is about."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Table:
    """A table: its name in addresses, its caption, heads, and rows of cells.

    The first cell heads its row; columns in ``numbers`` are numbers. The last ``totals`` rows sum
    up those above.
    """

    id: str
    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    numbers: frozenset[int]
    note: str = ""
    totals: int = 0

    @property
    def marked(self) -> tuple[str, ...]:
        """Heads, those of numbers marked as such."""
        return tuple(
            f"#{head}" if at in self.numbers else head for at, head in enumerate(self.heads)
        )
