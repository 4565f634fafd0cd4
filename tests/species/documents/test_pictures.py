"""From a camera's file to what is served: within limits, upright, on white paper, and with nothing else in it."""

from io import BytesIO

import pillow_heif
import pytest
from PIL import Image, ImageDraw

from species.documents.pictures import BadPicture, Limits, Refusal, read_picture
from species.rules.likeness import NEAR, distance, from_text

MAKER, SERIAL = "Camera Works of Nowhere", "SN-4711-0815"
ORIENTATION, SERIAL_NUMBER, TAKEN_AT, SUB, PLACE = 0x0112, 0xA431, 0x9003, 0x8769, 0x8825


def scene(width: int = 600, height: int = 400, mode: str = "RGB") -> Image.Image:
    """Dark at the top left, light elsewhere."""
    image = Image.new(mode, (width, height), "lightgreen")
    ImageDraw.Draw(image).rectangle((0, 0, width // 2, height // 2), fill="black")
    return image


def encoded(image: Image.Image, kind: str = "JPEG", **options: object) -> bytes:
    out = BytesIO()
    image.save(out, kind, **options)
    return out.getvalue()


def exif(orientation: int = 1, taken: str = "2026:04:12 10:11:12") -> Image.Exif:
    tags = Image.Exif()
    tags[0x010F], tags[ORIENTATION] = MAKER, orientation
    tags.get_ifd(SUB).update({SERIAL_NUMBER: SERIAL, TAKEN_AT: taken})
    tags.get_ifd(PLACE).update({1: "N", 2: (51.0, 28.0, 40.5)})
    return tags


def heic(image: Image.Image) -> bytes:
    out = BytesIO()
    pillow_heif.from_pillow(image).save(out, quality=90, exif=exif().tobytes())
    return out.getvalue()


def opened(content: bytes) -> Image.Image:
    return Image.open(BytesIO(content))


def why(content: bytes, limits: Limits | None = None) -> BadPicture:
    with pytest.raises(BadPicture) as caught:
        read_picture(content, [400], limits)
    return caught.value


def test_every_width_comes_as_jpeg_the_wider_ones_as_webp_too_and_none_wider_than_the_picture():
    made = read_picture(encoded(scene(600, 400)), [400, 800, 1600]).renditions
    assert [(each.width, each.height, each.media_type) for each in made] == [
        (400, 267, "image/jpeg"), (600, 400, "image/jpeg"), (600, 400, "image/webp"),
    ]  # fmt: skip
    assert all(opened(each.content).size == (each.width, each.height) for each in made)


def test_webp_can_be_left_out():
    made = read_picture(encoded(scene()), [400], with_webp=False).renditions
    assert [each.media_type for each in made] == ["image/jpeg"]


@pytest.mark.parametrize("make", [encoded, lambda i: encoded(i, "PNG"), lambda i: encoded(i, "WEBP"), heic])
def test_four_kinds_are_taken(make):
    picture = read_picture(make(scene()), [400])
    assert (picture.width, picture.height) == (600, 400)
    served = opened(picture.renditions[0].content)
    assert sum(served.getpixel((20, 20))) < 60
    assert sum(served.getpixel((380, 20))) > 400


@pytest.mark.parametrize("orientation", [5, 6, 7, 8])
def test_a_camera_held_on_its_side_gives_the_upright_size(orientation):
    picture = read_picture(encoded(scene(), exif=exif(orientation)), [300])
    assert (picture.width, picture.height) == (400, 600)
    assert opened(picture.renditions[0].content).size == (300, 450)


def test_what_shines_through_is_white_paper():
    clear = Image.new("RGBA", (400, 400), (0, 0, 0, 0))
    grey = Image.new("LA", (400, 400), (0, 0))
    for image in (clear, grey, clear.convert("P")):
        served = opened(read_picture(encoded(image, "PNG"), [400]).renditions[0].content)
        assert served.mode == "RGB"
        assert min(served.getpixel((200, 200))) > 250


@pytest.mark.parametrize("mode", ["L", "CMYK", "1"])
def test_other_colour_modes_become_rgb(mode):
    content = encoded(scene().convert(mode), "PNG" if mode == "1" else "JPEG")
    assert opened(read_picture(content, [400]).renditions[0].content).mode == "RGB"


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_nothing_the_camera_wrote_goes_along(kind):
    more = {"comment": SERIAL.encode()} if kind == "JPEG" else {}
    content = encoded(scene(), kind, exif=exif(), **more)
    assert MAKER.encode() in content
    for each in read_picture(content, [400, 600]).renditions:
        assert not [word for word in (MAKER, SERIAL, "Exif") if word.encode() in each.content]
        assert not opened(each.content).getexif()


def test_the_camera_says_when_or_nothing_readable():
    assert str(read_picture(encoded(scene(), exif=exif()), [400]).facts.taken_at) == "2026-04-12 10:11:12"
    for nonsense in ("0000:00:00 00:00:00", "yesterday", ""):
        assert read_picture(encoded(scene(), exif=exif(taken=nonsense)), [400]).facts.taken_at is None


def test_a_file_over_the_limit_is_refused_before_it_is_looked_at():
    bad = why(b"x" * 101, Limits(bytes=100))
    assert (bad.reason, bad.figure) == (Refusal.TOO_LARGE, "101 bytes, at most 100")


def test_a_picture_of_exactly_the_limit_is_taken_and_one_pixel_more_is_not():
    content = encoded(scene(400, 300))
    assert read_picture(content, [400], Limits(pixels=120_000)).width == 400
    assert why(content, Limits(pixels=119_999)).reason == Refusal.TOO_MANY_PIXELS


def test_a_picture_too_small_to_show_anything_is_refused():
    assert why(encoded(scene(299, 200))).reason == Refusal.TOO_SMALL
    assert read_picture(encoded(scene(300, 20)), [400]).width == 300


@pytest.mark.parametrize(
    "content", [b"", b"words", b"<svg xmlns='http://www.w3.org/2000/svg'/>", b"\xff\xd8\xff", encoded(scene(), "GIF")]
)
def test_what_is_no_picture_of_a_known_kind_is_refused(content):
    assert why(content).reason == Refusal.NO_PICTURE


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_file_cut_short_is_refused(kind):
    content = encoded(Image.effect_noise((600, 400), 60).convert("RGB"), kind)
    assert why(content[: len(content) // 2]).reason in (Refusal.BROKEN, Refusal.NO_PICTURE)


def test_a_heic_cut_short_is_refused():
    content = heic(Image.effect_noise((600, 400), 60).convert("RGB"))
    assert why(content[: len(content) // 2]).reason in (Refusal.BROKEN, Refusal.NO_PICTURE)


def test_the_same_subject_resaved_is_near_and_another_is_not():
    first = Image.effect_noise((12, 9), 80).resize((600, 450), Image.Resampling.BICUBIC).convert("RGB")
    other = Image.effect_noise((12, 9), 80).resize((600, 450), Image.Resampling.BICUBIC).convert("RGB")
    whole, small, another = (
        from_text(read_picture(content, [400]).likeness)
        for content in (encoded(first), encoded(first.resize((400, 300)), quality=50), encoded(other))
    )
    assert distance(whole, small) <= NEAR < distance(whole, another)
