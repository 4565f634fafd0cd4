"""From a plate to a picture, marked as a drawing in its own fields too."""

import re
from functools import lru_cache
from io import BytesIO
from typing import Literal

import resvg_py
from PIL import Image
from PIL.PngImagePlugin import PngInfo

from species.documents.plates.paper import HEIGHT, WIDTH, draw_paper
from species.documents.plates.svg import Sheet, element

MARK = "drawing"
_PAPER_GROUP = re.compile(r'<g id="paper-(\d+)-(soil|bare)">.*?</g>', re.DOTALL)


def rasterise(svg: str, width: int = 800, kind: Literal["JPEG", "PNG"] = "JPEG") -> bytes:
    """The plate as JPEG or PNG bytes, `width` pixels wide. Comment and description fields say "drawing".

    The paper is by far the slowest part to render, so it is rendered once per kind and width and kept.
    """
    found = _PAPER_GROUP.search(svg)
    if found is None:
        picture = _rendered(svg, width).convert("RGB")
    else:
        plant = _rendered(svg[: found.start()] + svg[found.end() :], width)
        picture = _paper_picture(int(found[1]), found[2] == "soil", width).copy()
        picture.paste(plant, (0, 0), plant)
    out = BytesIO()
    if kind == "PNG":
        fields = PngInfo()
        fields.add_text("Description", MARK)
        picture.save(out, "PNG", pnginfo=fields)
    else:
        exif = Image.Exif()
        exif[0x010E] = MARK  # ImageDescription
        picture.save(out, "JPEG", quality=88, comment=MARK.encode(), exif=exif)
    return out.getvalue()


def _rendered(svg: str, width: int) -> Image.Image:
    png = resvg_py.svg_to_bytes(svg_string=svg, width=width, skip_system_fonts=True)
    return Image.open(BytesIO(bytes(png)))


@lru_cache(maxsize=32)
def _paper_picture(kind: int, ground: bool, width: int) -> Image.Image:
    page = Sheet()
    draw_paper(page, kind, ground)
    svg = element(
        "svg",
        element("defs", "".join(page.definitions)) + page.content(),
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {WIDTH} {HEIGHT}",
        width=WIDTH,
        height=HEIGHT,
    )
    return _rendered(svg, width).convert("RGB")
