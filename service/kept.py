"""Values kept at hand: the last so many that were asked for, for all threads."""

import threading
from collections import OrderedDict
from collections.abc import Hashable
from typing import Generic, TypeVar

K = TypeVar("K", bound=Hashable)
V = TypeVar("V")


class Kept(Generic[K, V]):
    """Keeps values by key; of more than ``most`` the ones not asked for longest are let go.

    A key must name one value for good, such as a row that never changes together with how much
    was added to it, or the value tell what it was made of: then whoever gets it must look, and put
    a newer one in its place. Two threads may make the same value at once; either serves.

    Parameters
    ----------
    most
        How many are kept.
    """

    def __init__(self, most: int) -> None:
        self._most = most
        self._lock = threading.Lock()
        self._values: OrderedDict[K, V] = OrderedDict()

    def get(self, key: K) -> V | None:
        """The value of a key, or None."""
        with self._lock:
            if key in self._values:
                self._values.move_to_end(key)
            return self._values.get(key)

    def put(self, key: K, value: V) -> V:
        """Keep a value, and give it back."""
        with self._lock:
            self._values[key] = value
            self._values.move_to_end(key)
            while len(self._values) > self._most:
                self._values.popitem(last=False)
        return value
