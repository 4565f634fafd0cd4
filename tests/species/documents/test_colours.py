"""Colours that a file means by a profile are the same colours when it is served without one."""

from io import BytesIO

import numpy as np
import pytest
from PIL import Image, ImageCms

from species.documents.pictures import read_picture
from tests.factories.profiles import ADOBE_RGB, DISPLAY_P3, profile

# The same colours in both spaces, worked out from the published primaries and curves, in eighths of a byte's range.
SRGB_RED_IN_P3, SRGB_GREEN_IN_P3 = (234, 51, 35), (117, 251, 76)


def served(colour: tuple[int, ...], kind: str = "JPEG", mode: str = "RGB", **more: object) -> np.ndarray:
    """The middle of a picture of one colour, as it is served; and nothing of the profile goes along."""
    out = BytesIO()
    Image.new(mode, (600, 400), colour).save(out, kind, **({"quality": 98} if kind == "JPEG" else {}), **more)
    rendition = read_picture(out.getvalue(), [400]).renditions[0]
    assert b"ICC_PROFILE" not in rendition.content
    return np.array(Image.open(BytesIO(rendition.content)).getpixel((200, 130)), dtype=int)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize(
    ("wide", "plain"), [(SRGB_RED_IN_P3, (255, 0, 0)), (SRGB_GREEN_IN_P3, (0, 255, 0)), ((99, 99, 99), (99, 99, 99))]
)
def test_colours_of_a_telephone_with_a_wide_screen_are_turned(wide, plain, kind):
    found = served(wide, kind, icc_profile=profile(DISPLAY_P3))
    assert np.abs(found - plain).max() <= (6 if kind != "WEBP" else 24), found


def test_a_green_of_a_wide_camera_becomes_more_vivid_in_numbers_and_not_in_colour():
    plain, turned = served((120, 180, 60)), served((120, 180, 60), icc_profile=profile(ADOBE_RGB))
    assert turned[0] < plain[0] - 20
    assert abs(turned[1] - plain[1]) <= 8


def test_a_picture_that_names_srgb_itself_is_left_alone():
    own = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    assert (served((120, 180, 60), icc_profile=own) == served((120, 180, 60))).all()


@pytest.mark.parametrize("broken", [b"nonsense", b"\0" * 200, profile(DISPLAY_P3)[:300]])
def test_a_profile_that_cannot_be_read_changes_nothing(broken):
    assert (served((120, 180, 60), icc_profile=broken) == served((120, 180, 60))).all()


def test_a_profile_of_another_kind_of_picture_changes_nothing():
    assert (served(120, mode="L", icc_profile=profile(DISPLAY_P3)) == served(120, mode="L")).all()


def test_what_shines_through_is_turned_too():
    found = served((*SRGB_RED_IN_P3, 255), "PNG", "RGBA", icc_profile=profile(DISPLAY_P3))
    assert np.abs(found - (255, 0, 0)).max() <= 6
