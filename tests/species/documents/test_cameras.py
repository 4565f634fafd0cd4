"""What a camera wrote beside the picture, and what it wrote that cannot be."""

from io import BytesIO

import pytest
from PIL import Image

from species.documents.cameras import CameraFacts, Place, camera_facts
from tests.factories.pictures import exif


def facts(tags: Image.Exif) -> CameraFacts:
    out = BytesIO()
    Image.new("RGB", (40, 40)).save(out, "JPEG", exif=tags)
    return camera_facts(Image.open(BytesIO(out.getvalue())))


def test_time_place_and_camera_are_read():
    found = facts(exif())
    assert str(found.taken_at) == "2026-04-12 10:11:12"
    assert found.place == Place(51.47792, -2.58333)
    assert len(found.camera) == 12


def test_the_mark_tells_cameras_apart_and_says_nothing_about_them():
    other = exif()
    other[0x0110] = "Another model"
    assert facts(exif()).camera == facts(exif(taken="2020:01:01 00:00:00")).camera
    assert facts(other).camera != facts(exif()).camera


@pytest.mark.parametrize("taken", ["2026:13:12 10:11:12", "2026:02:30 10:11:12", "0000:00:00 00:00:00", "13", "é"])
def test_a_month_13_is_no_moment(taken):
    assert facts(exif(taken=taken)).taken_at is None


@pytest.mark.parametrize(
    "gps", [{}, {1: "N", 2: (91.0, 0.0, 0.0), 3: "W", 4: (2.0, 0.0, 0.0)}, {1: "N", 2: (51.0, 0.0, 0.0)},
            {1: "N", 2: (0.0, 0.0, 0.0), 3: "W", 4: (0.0, 0.0, 0.0)}],
)  # fmt: skip
def test_a_place_that_is_nowhere_is_none(gps):
    tags = Image.Exif()
    tags.get_ifd(0x8825).update(gps)
    assert facts(tags).place is None


def test_a_file_that_says_nothing_says_nothing():
    assert facts(Image.Exif()) == CameraFacts()
