"""Fingerprints of pictures: near for the same picture, far for another."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageFilter

from species.rules.likeness import (
    NEAR,
    SIDE,
    as_text,
    distance,
    fingerprint,
    from_text,
    near_duplicates,
)

words = st.integers(0, 2**64 - 1)


def scene(seed: int, size: tuple[int, int] = (480, 360)) -> Image.Image:
    """A picture of soft patches and sharp strokes, as unlike any other seed as two photographs are."""
    random = np.random.default_rng(seed)
    patches = Image.fromarray(random.integers(0, 255, (9, 12), dtype=np.uint8), "L").resize(size, Image.BICUBIC)
    strokes = Image.fromarray(random.integers(0, 60, (90, 120), dtype=np.uint8), "L").resize(size)
    return Image.blend(patches, strokes, 0.3)


def of(picture: Image.Image) -> int:
    return fingerprint(np.asarray(picture.convert("L").resize((SIDE, SIDE), Image.LANCZOS)))


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.parametrize(
    "change",
    [
        lambda picture: picture.resize((1600, 1200)),
        lambda picture: picture.resize((160, 120)),
        lambda picture: picture.filter(ImageFilter.GaussianBlur(2)),
        lambda picture: picture.point(lambda value: int(value * 0.7)),
        lambda picture: picture.point(lambda value: min(255, value + 25)),
        lambda picture: picture.crop((5, 4, 476, 357)),
    ],
    ids=["larger", "smaller", "softer", "darker", "lighter", "trimmed"],
)
def test_the_same_picture_stays_near(seed: int, change) -> None:
    picture = scene(seed)
    assert distance(of(picture), of(change(picture))) <= NEAR


def test_different_pictures_are_far() -> None:
    values = [of(scene(seed)) for seed in range(60)]
    apart = [distance(a, b) for place, a in enumerate(values) for b in values[place + 1 :]]
    assert min(apart) > NEAR
    assert 28 < np.mean(apart) < 36


def test_an_even_picture_has_no_fingerprint() -> None:
    assert fingerprint(np.full((SIDE, SIDE), 200, dtype=np.uint8)) == 0


def test_another_size_is_refused() -> None:
    with pytest.raises(ValueError, match="32 by 32"):
        fingerprint(np.zeros((8, 8)))


def test_chains_of_near_pictures_are_one_group() -> None:
    assert near_duplicates([0b0, 2**64 - 1, 0b11, 0b1111], within=2) == ((0, 2, 3),)
    assert near_duplicates([0, 2**32 - 1]) == ()
    assert near_duplicates([]) == ()


@given(words)
def test_a_fingerprint_survives_its_stored_form(value: int) -> None:
    assert from_text(as_text(value)) == value
    assert len(as_text(value)) == 16


@given(words, words, words)
def test_distance_is_a_distance(a: int, b: int, c: int) -> None:
    assert distance(a, a) == 0
    assert distance(a, b) == distance(b, a)
    assert distance(a, c) <= distance(a, b) + distance(b, c)
