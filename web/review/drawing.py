"""Vega-Lite specifications drawn as SVG, where the page is made: a browser needs no script."""

import json
import threading
from collections.abc import Mapping
from functools import lru_cache
from typing import Any

_KEPT = 64
"""Drawings kept at hand: the same figures are drawn once."""
_one_at_a_time = threading.Lock()


def drawn(spec: Mapping[str, Any]) -> str:
    """The SVG of a specification whose data are in it: nothing is fetched."""
    return _drawn(json.dumps(spec))


@lru_cache(maxsize=_KEPT)
def _drawn(spec: str) -> str:
    # Imported when first needed: most who serve a kitchen never look at a chart.
    import vl_convert  # noqa: PLC0415

    with _one_at_a_time:
        return str(vl_convert.vegalite_to_svg(spec, vl_version="5.21", allowed_base_urls=[]))
