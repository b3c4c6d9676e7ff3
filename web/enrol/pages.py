"""The page that takes a phone into the kitchen's network of pages."""

from web.engine import render
from web.language import _
from web.links import STYLESHEETS
from web.qr import qr_svg


def render_enrol(*, here: str, secure: str | None, authority: str | None, to: str) -> str:
    """How a phone is enrolled, in steps, with codes to scan.

    Parameters
    ----------
    here
        This page's own address, as phones reach it.
    secure
        The first page's address over HTTPS; None: it is not served so.
    authority
        Path of the certificate that phones are to trust; None with ``secure``.
    to
        The first page's address without HTTPS.
    """
    return render(
        "enrol.html",
        here=here,
        here_code=qr_svg(here, _("This page")),
        secure=secure,
        secure_code=None if secure is None else qr_svg(secure, _("The pages, over HTTPS")),
        authority=authority,
        to=to,
        style="",
        stylesheets=STYLESHEETS,
    )
