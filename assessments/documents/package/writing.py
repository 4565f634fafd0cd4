"""Questions and pictures to one package: a ZIP file, the same bytes for the same questions."""

import zipfile
from collections.abc import Callable, Mapping, Sequence
from typing import IO

from .item_xml import item_xml
from .manifest_xml import manifest_xml
from .shape import Item

MANIFEST = "imsmanifest.xml"
_DAY_ONE = (1980, 1, 1, 0, 0, 0)
"""The earliest day that a ZIP file can say: when a package was written is nobody's business but the school's."""


def write_package(
    out: IO[bytes], identifier: str, items: Sequence[Item], pictures: Mapping[str, Callable[[], bytes]]
) -> None:
    """Write a package. `pictures`: by path, how to read each; they are read one at a time.

    KeyError for a picture that a question needs and nobody brings.
    """
    with zipfile.ZipFile(out, "w") as archive:
        _add(archive, MANIFEST, manifest_xml(identifier, items))
        for item in items:
            _add(archive, item.file, item_xml(item))
        for path in dict.fromkeys(picture.path for item in items for picture in item.pictures):
            _add(archive, path, pictures[path](), zipfile.ZIP_STORED)


def _add(archive: zipfile.ZipFile, path: str, content: bytes, how: int = zipfile.ZIP_DEFLATED) -> None:
    member = zipfile.ZipInfo(path, _DAY_ONE)
    member.compress_type = how
    member.external_attr = 0o644 << 16
    archive.writestr(member, content)
