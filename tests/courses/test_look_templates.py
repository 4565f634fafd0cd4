"""All templates of the site: sampled, sound, commented, and within the content policy."""

import re
from pathlib import Path

import pytest
from django.conf import settings
from django.test.signals import template_rendered

from tests.courses.drawing import drawn
from tests.courses.look_samples import SAMPLES
from tests.courses.markup import faults, read

TEMPLATES = Path(settings.BASE_DIR) / "templates"
OWN = [
    "base.html",
    "pieces/*.html",
    "flora/**/*.html",
    "allauth/**/*.html",
    "account/**/*.html",
    "mfa/**/*.html",
    "4*.html",
    "500.html",
]
FILES = sorted(path for pattern in OWN for path in TEMPLATES.glob(pattern))
FORBIDDEN = re.compile(
    r"\|\s*safe\b|mark_safe|\sstyle=|\son[a-z]+=|<style|<script(?![^>]*(src=|application/json))|https?://"
)


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda sample: f"{sample.piece} {sample.inputs}".strip())
def test_every_piece_is_sound_markup(sample):
    html = drawn(sample.markup, **sample.context)
    assert read(html).elements
    assert faults(html) == []


def test_no_piece_is_without_a_sample():
    used = set()

    def note(sender, template, **kwargs):
        used.add(template.name)

    template_rendered.connect(note)
    for sample in SAMPLES:
        drawn(sample.markup, **sample.context)
    template_rendered.disconnect(note)
    with_pages = {
        "bare_page.html",
        "head_links.html",
        "radio_group.html",
        "answer_choices.html",
        "confidence_choices.html",
    }
    all_pieces = {path.name for path in (TEMPLATES / "pieces").glob("*.html")}
    assert all_pieces - with_pages == {
        name.removeprefix("pieces/") for name in used if name and name.startswith("pieces/")
    }


@pytest.mark.parametrize(
    "path",
    [path for path in FILES if path.parent.name in ("pieces", "flora", "layout", "elements", "snippets")],
    ids=str,
)
def test_every_piece_states_its_inputs_in_its_first_lines(path):
    words = path.read_text()
    assert words.startswith("{% comment %}\n")
    assert len(words.split("{% endcomment %}")[0].split()) > 4


@pytest.mark.parametrize("path", FILES, ids=str)
def test_no_template_of_the_site_goes_round_escaping_or_the_content_policy(path):
    assert FORBIDDEN.findall(path.read_text()) == []
    assert len(path.read_text().splitlines()) <= 120
