"""What is served of a picture is light enough for a telephone, whatever the picture."""

from io import BytesIO

import numpy as np
import pytest
from PIL import Image

from species.documents.pictures import read_picture
from species.documents.renditions import JPEG, PHONE_BYTES, PHONE_WIDTH, WEBP, encoded
from tests.bench.importing import made_up_photo

WIDTHS = (400, 800, 1200, 1600)


def noise(width: int, height: int) -> Image.Image:
    values = np.random.default_rng(5).integers(0, 256, (height, width, 3), dtype=np.uint8)
    return Image.fromarray(values)


@pytest.mark.parametrize("size", [(4000, 3000), (3000, 4000)])
def test_a_noisy_picture_of_twelve_megapixels_is_light_on_a_telephone(size):
    picture = read_picture(made_up_photo(*size, grain=30), WIDTHS)
    light = [each for each in picture.renditions if each.width <= PHONE_WIDTH]
    assert {each.width for each in light} == {400, 800, 1200}
    assert max(len(each.content) for each in light) <= PHONE_BYTES
    assert min(len(each.content) for each in light if each.width == PHONE_WIDTH) > PHONE_BYTES / 3


@pytest.mark.parametrize("kind", [JPEG, WEBP])
def test_even_nothing_but_noise_is_light(kind):
    assert len(encoded(noise(1200, 1600), kind)) <= PHONE_BYTES


def test_a_quiet_picture_keeps_the_best_quality():
    quiet = Image.linear_gradient("L").resize((1200, 900)).convert("RGB")
    tables = Image.open(BytesIO(encoded(quiet, JPEG))).quantization
    out = BytesIO()
    quiet.save(out, "JPEG", quality=82)
    assert tables == Image.open(BytesIO(out.getvalue())).quantization


def test_what_only_a_wide_screen_asks_for_may_weigh_more():
    assert len(encoded(noise(1600, 1200), JPEG)) > PHONE_BYTES


def test_a_wide_screen_gets_every_line_of_a_fine_grid():
    grid = np.zeros((1200, 1600, 3), dtype=np.uint8)
    grid[:, ::8] = 255
    widest = read_picture(_png(Image.fromarray(grid)), WIDTHS).renditions[-1]
    row = np.asarray(Image.open(BytesIO(widest.content)).convert("L"), dtype=int)[600]
    assert (widest.width, (row[::8] > 128).all(), (row[4::8] < 128).all()) == (1600, True, True)


def _png(image: Image.Image) -> bytes:
    out = BytesIO()
    image.save(out, "PNG")
    return out.getvalue()
