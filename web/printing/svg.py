"""Pages of shapes as drawings on a page of the browser's, in the same font as the PDFs.

A drawing is as large as the paper, so that printed at 100 % it is what the PDF is.
"""

from markupsafe import Markup

from web.engine import render
from web.printing.fonts import MM_PER_POINT
from web.printing.shapes import Page, Rule, Text


def page_svg(page: Page, name: str) -> Markup:
    """One page as an SVG element; ``name`` is what readers of screens are told.

    Words and rules only, which is what labels are made of.
    """
    return Markup(  # noqa: S704 - of a template of our own, which escapes what people wrote
        render(
            "printed_page.svg",
            page=page,
            name=name,
            texts=[shape for shape in page.shapes if isinstance(shape, Text)],
            rules=[shape for shape in page.shapes if isinstance(shape, Rule)],
            mm=MM_PER_POINT,
        )
    )
