"""Contrast, computed from the one file of colours (WCAG 2.2: 1.4.3 text, 1.4.11 controls and focus)."""

import itertools
import re
from pathlib import Path

import pytest
from django.conf import settings

STYLES = Path(settings.BASE_DIR) / "courses/static/kenspeckle/css"
COLOURS = dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6});", (STYLES / "tokens.css").read_text()))
PAPERS = ["paper", "sheet", "shade", "pen-wash", "rust-wash", "moss-wash", "ochre-wash"]
INKS = ["ink", "ink-soft", "pen", "rust", "moss", "ochre"]


def luminance(colour: str) -> float:
    """Relative luminance, 0 to 1 (WCAG 2.2, definition of relative luminance)."""
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio, 1 to 21."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def test_the_measure_agrees_with_the_known_ends():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)  # grey, just too light


@pytest.mark.parametrize(("ink", "paper"), list(itertools.product(INKS, PAPERS)))
def test_every_ink_can_be_read_on_every_paper(ink, paper):
    assert contrast(COLOURS[ink], COLOURS[paper]) >= 4.5


@pytest.mark.parametrize("ground", ["pen", "ink", "moss"])
def test_light_words_can_be_read_on_what_is_filled_with_ink(ground):
    assert contrast(COLOURS["sheet"], COLOURS[ground]) >= 4.5


@pytest.mark.parametrize(("line", "paper"), list(itertools.product(["line", "pen", "ochre"], [*PAPERS, "white"])))
def test_borders_of_controls_and_the_focus_ring_stand_out(line, paper):
    assert contrast(COLOURS[line], COLOURS.get(paper, "#ffffff")) >= 3


@pytest.mark.parametrize("name", ["base.css", "pieces.css", "records.css", "forms.css", "print.css"])
def test_colours_are_named_in_one_file_alone(name):
    written = re.findall(r"#[0-9a-f]{3,8}\b|\brgba?\(|\bhsl", (STYLES / name).read_text())
    assert set(written) <= {"#fff"}  # white of paper that is printed on, and of a field on a sheet


def test_rust_is_used_for_danger_alone():
    for path in STYLES.glob("*.css"):
        for selector, body in re.findall(r"([^{}]+)\{([^{}]*)\}", path.read_text()):
            if "var(--rust" in body:
                assert selector.strip().split("\n")[-1].startswith(".danger")


@pytest.mark.parametrize("path", sorted(STYLES.glob("*.css")), ids=lambda path: path.name)
def test_no_style_sheet_asks_another_site_for_anything(path):
    words = path.read_text()
    assert "@import" not in words
    assert all(address.startswith("../icons/") for address in re.findall(r'url\("([^"]+)"\)', words))
    assert len(words.splitlines()) <= 250
