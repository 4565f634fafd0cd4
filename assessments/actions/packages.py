"""Taking the questions of the bank out of the school: written down in the same step, both or neither."""

from dataclasses import dataclass
from datetime import datetime
from functools import partial
from hashlib import sha256
from typing import IO

from django.contrib.auth.models import User
from django.db import transaction

from assessments.documents.package.writing import write_package
from assessments.models import PackageRun
from assessments.queries.packages.bank import Packaged, Scope, questions_to_package
from assessments.queries.packages.table import package_table
from species.models import PhotoRendition

Part = PackageRun.Part


class NotConfirmed(Exception):
    """Questions of tests leave only where a known person said so a second time."""


class NothingToTake(Exception):
    """No question can be put; `packaged` says what stays and why."""

    def __init__(self, packaged: Packaged) -> None:
        super().__init__("no question can be put")
        self.packaged = packaged


@dataclass(frozen=True)
class Outlet:
    """Where the two files go; the one that is not wanted is None."""

    package: IO[bytes] | None = None
    table: IO[bytes] | None = None

    @property
    def part(self) -> str:
        """What is taken, as the record has it."""
        if self.package is not None and self.table is not None:
            return Part.BOTH
        return Part.PACKAGE if self.table is None else Part.TABLE


def take_questions(
    outlet: Outlet, scope: Scope, *, by: User | None, now: datetime, confirmed: bool = False
) -> Packaged:
    """Write the questions, the table beside them, or both, and a line in the record.

    Raises NotConfirmed where the scope holds questions of tests and nobody stands for it, `confirmed`; NothingToTake
    where there is no question. The same bank gives the same bytes.
    """
    if scope.with_assessment and not (confirmed and by):
        raise NotConfirmed
    with transaction.atomic():
        packaged = questions_to_package(scope)
        if not packaged.questions:
            raise NothingToTake(packaged)
        if outlet.package is not None:
            items = [each.item for each in packaged.questions]
            files = {path: partial(_content, row) for path, row in packaged.files.items()}
            write_package(outlet.package, _name_of(packaged), items, files)
        if outlet.table is not None:
            outlet.table.write(package_table(packaged))
        PackageRun.objects.create(
            at=now,
            by=by,
            part=outlet.part,
            standard=scope.standard,
            with_assessment=scope.with_assessment,
            counts=packaged.counts,
        )
    return packaged


def _name_of(packaged: Packaged) -> str:
    """What a package is called: by what is in it, so that the same questions have the same name."""
    identifiers = "|".join(each.item.identifier for each in packaged.questions)
    return f"questions-{sha256(identifiers.encode()).hexdigest()[:16]}"


def _content(row: PhotoRendition) -> bytes:
    with row.file.open("rb") as file:
        content: bytes = file.read()
    return content
