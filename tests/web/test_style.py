"""The style sheets: contrast by the WCAG formula, and rules that paper and phones depend on."""

import re
from pathlib import Path

import pytest

import web
from web.pages import stylesheet

CSS = stylesheet()
_STATIC = Path(web.__file__).parent / "static"

_TEXT = 4.5
"""WCAG 2.2, 1.4.3: text against its background, AA."""
_SIGN = 3.0
"""WCAG 2.2, 1.4.11: parts of controls and graphics needed to understand them, AA."""

_PAIRS: tuple[tuple[str, str, float], ...] = (
    ("ink", "paper", 7.0),
    ("ink", "sheet", 7.0),
    ("ink", "wash", 7.0),
    ("soft", "paper", _TEXT),
    ("soft", "sheet", _TEXT),
    ("soft", "wash", _TEXT),
    ("accent", "sheet", _TEXT),
    ("accent", "paper", _TEXT),
    ("on-accent", "accent", _TEXT),
    ("on-bar", "bar", _TEXT),
    ("focus", "sheet", _SIGN),
    ("focus", "paper", _SIGN),
    ("rule", "sheet", _SIGN),
    ("rule", "paper", _SIGN),
    ("bar", "wash", _SIGN),
    ("bar", "paper", _SIGN),
)


def _palettes() -> dict[str, dict[str, str]]:
    blocks = re.findall(r":root \{([^}]*)\}", CSS)
    assert len(blocks) == 3, "light, dark and paper each name all colours"
    light, dark, paper = (dict(re.findall(r"--([\w-]+): (#\w{6})", block)) for block in blocks)
    return {"light": light, "dark": dark, "paper": paper}


def _luminance(colour: str) -> float:
    """Relative luminance of an sRGB colour. Source: WCAG 2.2, definition of relative luminance."""
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio, 1 to 21. Source: WCAG 2.2, definition of contrast ratio."""
    lighter, darker = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_the_formula_gives_the_known_extremes() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#777777") == pytest.approx(1)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("palette", ["light", "dark", "paper"])
@pytest.mark.parametrize(("front", "back", "least"), _PAIRS)
def test_colours_stand_out_enough(palette: str, front: str, back: str, least: float) -> None:
    colours = _palettes()[palette]
    assert contrast(colours[front], colours[back]) >= least


def test_paper_is_black_on_white() -> None:
    paper = _palettes()["paper"]
    assert (paper["ink"], paper["paper"], paper["sheet"]) == ("#000000", "#ffffff", "#ffffff")


def test_colours_are_named_in_the_palettes_and_nowhere_else() -> None:
    rules = re.sub(r":root \{[^}]*\}", "", CSS)
    assert re.findall(r"#[0-9a-fA-F]{3,8}\b", rules) == []


def test_nothing_is_asked_for_from_elsewhere() -> None:
    assert "url(" not in CSS
    assert "@import" not in CSS


def _print_rules() -> str:
    return CSS[CSS.index("@media print") :]


def test_on_paper_nothing_is_clipped_and_batches_stay_whole() -> None:
    rules = _print_rules()
    assert "overflow: hidden" not in rules
    assert re.search(r"tr, li[^{]*\{ break-inside: avoid; \}", rules)
    assert "thead { display: table-header-group" in rules


def test_paper_leaves_its_size_to_the_printer() -> None:
    sizes = re.findall(r"[{;]\s*size: ([^;]+);", CSS[CSS.index("@page") :])
    assert set(sizes) == {"landscape"}


def test_time_and_quantity_are_at_least_twelve_points_on_paper() -> None:
    rules = _print_rules()
    sizes = {
        selector: float(size)
        for selectors, size in re.findall(r"([^{}]+)\{ font-size: ([\d.]+)pt;[^}]*\}", rules)
        for selector in (one.strip() for one in selectors.split(","))
    }
    assert sizes[".time"] >= 12
    assert sizes[".amount"] >= 12
    assert sizes[".batches .amount"] >= 12
    assert sizes[".pulls .amount"] >= 12
    assert sizes[".what"] >= 12


def test_motion_is_only_for_those_who_did_not_ask_for_less() -> None:
    free = re.sub(
        r"@media \(prefers-reduced-motion: no-preference\) \{.*?\n\}", "", CSS, flags=re.S
    )
    for word in ("animation", "transition", "scroll-behavior"):
        assert word not in free


def test_screens_and_paper_have_a_sheet_each_and_paper_has_the_last_word() -> None:
    screen, paper = (_STATIC / "screen.css", _STATIC / "paper.css")
    assert "\n".join(file.read_text(encoding="utf-8") for file in (screen, paper)) == CSS
    assert "@media print" not in screen.read_text(encoding="utf-8")
    rules = re.sub(r"@page[^{]*\{(?:[^{}]|\{[^{}]*\})*\}", "", paper.read_text(encoding="utf-8"))
    outside = re.sub(r"/\*.*?\*/|@media print \{.*?\n\}\n", "", rules, flags=re.S)
    assert not outside.strip()


@pytest.mark.parametrize("name", ["floor.css", "wall.css"])
def test_the_live_pages_have_the_same_colours_and_ask_for_nothing(name: str) -> None:
    rules = (_STATIC / "floor" / name).read_text(encoding="utf-8")
    assert re.findall(r"#[0-9a-fA-F]{3,8}\b|rgb\(|hsl\(", rules) == []
    for word in ("url(", "@import", "animation", "transition"):
        assert word not in rules
    used = set(re.findall(r"var\(--([\w-]+)\)", rules))
    assert used <= _palettes()["light"].keys() | {"step"}
