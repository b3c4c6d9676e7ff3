"""What a PDF says, read by another library than the one that wrote it."""

import io
import re

from pypdf import PdfReader

MM = 25.4 / 72


def open_pdf(content: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(content), strict=True)


def squeezed(text: str) -> str:
    """Words with single spaces, no-break spaces and line ends included."""
    return re.sub(r"\s+", " ", text)


def text_of(content: bytes) -> str:
    return squeezed(" ".join(page.extract_text() for page in open_pdf(content).pages))


def sizes_of(content: bytes) -> list[tuple[float, float]]:
    """Width and height of each page, mm."""
    return [
        (round(float(page.mediabox.width) * MM, 1), round(float(page.mediabox.height) * MM, 1))
        for page in open_pdf(content).pages
    ]
