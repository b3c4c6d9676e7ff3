"""QR codes on paper. Source of the symbol: ISO/IEC 18004."""

import segno

from web.printing.shapes import Code

LEAST_CODE = 28.0
"""Side of a printed code with its quiet zone, mm: the symbol itself comes out above 20 mm for
addresses as long as ours are, so that a phone reads it off a sheet on the wall."""
_QUIET = 4
"""Modules of white around the symbol. Source: ISO/IEC 18004."""


def code(address: str, x: float, y: float, size: float = LEAST_CODE) -> Code:
    """The code of an address, its upper left corner at (x, y), ``size`` mm with its quiet zone.

    Error correction M, as on the pages (`web.qr`): a grease spot may hide a seventh of it.
    """
    found = segno.make(address, error="m", micro=False)
    return Code(x, y, size, tuple(bytes(row) for row in found.matrix_iter(border=_QUIET)))
