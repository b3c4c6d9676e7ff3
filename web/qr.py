"""QR codes for phones to read off a screen or paper. Source of the symbol: ISO/IEC 18004."""

import io

import segno
from markupsafe import Markup


def qr_svg(address: str, label: str) -> Markup:
    """The code of an address as an SVG element, drawn in the page's own ink; ``label`` names it.

    Error correction M: a grease spot on a printed sheet may hide a seventh of it.
    """
    code = segno.make(address, error="m", micro=False)
    out = io.BytesIO()
    code.save(
        out,
        kind="svg",
        xmldecl=False,
        svgns=True,
        omitsize=True,
        svgclass="qr",
        lineclass=None,
        title=label,
        border=4,
        dark="#000",
        light="#fff",
        nl=False,
    )
    # Markup of a library that escapes its title; the address is drawn, not written.
    return Markup(out.getvalue().decode())  # noqa: S704
