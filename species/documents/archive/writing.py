"""Tables and pictures to one ZIP archive: the same input gives the same bytes."""

import csv
import zipfile
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from io import StringIO
from typing import IO

from species.documents.archive.eml import About, eml_xml
from species.documents.archive.meta import EML, META, meta_xml
from species.rules.darwin.rows import Table

_DAY_ONE = (1980, 1, 1, 0, 0, 0)
"""The earliest that a ZIP archive can say; the day of the archive stands in eml.xml."""


@dataclass(frozen=True)
class Enclosed:
    """A picture to be put into an archive: its path there, and how to read it."""

    path: str
    read: Callable[[], bytes]


def write_archive(out: IO[bytes], tables: Sequence[Table], about: About, pictures: Iterable[Enclosed] = ()) -> None:
    """Write an archive; the first table is the core. Pictures are read one at a time."""
    with zipfile.ZipFile(out, "w") as archive:
        _add(archive, META, meta_xml([each.layout for each in tables]).encode())
        _add(archive, EML, eml_xml(about).encode())
        for table in tables:
            _add(archive, table.layout.file, table_csv(table).encode())
        for picture in pictures:
            _add(archive, picture.path, picture.read(), zipfile.ZIP_STORED)


def table_csv(table: Table) -> str:
    """One table as text: a header, commas, quotes where they are needed."""
    out = StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(each.name for each in table.layout.columns)
    writer.writerows(table.cells())
    return out.getvalue()


def _add(archive: zipfile.ZipFile, path: str, content: bytes, how: int = zipfile.ZIP_DEFLATED) -> None:
    member = zipfile.ZipInfo(path, _DAY_ONE)
    member.compress_type = how
    member.external_attr = 0o644 << 16
    archive.writestr(member, content)
