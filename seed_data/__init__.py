"""Bundled kitchens, all of them invented."""

from importlib.resources import files


def demo_bytes() -> bytes:
    """Kitchen file of a restaurant's busy Wednesday: three services and a day after."""
    return files(__package__).joinpath("demo.json").read_bytes()


def small_bytes() -> bytes:
    """Kitchen file small enough to work out on paper."""
    return files(__package__).joinpath("small.json").read_bytes()
