"""Numbers with their nouns."""


def counted(number: int, one: str, many: str) -> str:
    """A number with its noun: ``1 batch``, ``3 batches``."""
    return f"{number} {one if number == 1 else many}"
