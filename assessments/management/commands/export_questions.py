"""`manage.py export_questions FILE`: the questions of the bank as a QTI 3.0 package, with a table beside it."""

import json
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.contrib.auth.models import User
from django.core.management import BaseCommand, CommandError
from django.utils import timezone

from assessments.actions.packages import NothingToTake, Outlet, take_questions
from assessments.models import Standard
from assessments.queries.packages.bank import Packaged, Scope
from assessments.queries.sentences.packages import LOSES_THE_RULE, left_out_sentences, packaged_sentences

SURE = "test questions leave"
MAY_TAKE = "assessments.add_packagerun"


class Command(BaseCommand):
    """Write what serves for teaching; what serves for tests only when it is asked for twice."""

    help = (
        "Write the questions of the bank as a QTI 3.0 package, and beside it a table of what that format cannot say. "
        "Marks alone lose the safety rule: read the table."
    )

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", type=Path, help="where to write the package, for instance questions.zip")
        parser.add_argument("--standard", metavar="NAME", help="only the dangerous pairs of this standard in use")
        parser.add_argument("--assessment", action="store_true", help="also what serves for tests")
        parser.add_argument("--sure", default="", help=f"with --assessment: the words “{SURE}”")
        parser.add_argument("--by", metavar="EMAIL", help="account of whoever takes the questions")
        parser.add_argument("--json", action="store_true", help="report as JSON")

    def handle(self, *args: Any, **options: Any) -> None:
        by, scope = _account(options["by"]), Scope(_standard(options["standard"]), options["assessment"])
        if scope.with_assessment and (options["sure"] != SURE or by is None):
            raise CommandError(
                "Test pictures lose their worth where they are seen. If they have to leave, say so a second time with "
                f'--sure "{SURE}", and who takes them with --by EMAIL; it is written down.'
            )
        path: Path = options["file"]
        table = path.with_name(f"{path.stem}-beside.csv")
        packaged = self._written(path, table, scope, by, confirmed=options["sure"] == SURE)
        if options["json"]:
            said = {"package": str(path), "table": str(table), **packaged.counts}
            said |= {"safety": str(LOSES_THE_RULE), "left_out": list(left_out_sentences(packaged))}
            self.stdout.write(json.dumps(said, indent=2, ensure_ascii=False))
            return
        for sentence in (*packaged_sentences(packaged), str(LOSES_THE_RULE)):
            self.stdout.write(sentence)
        self.stdout.write(f"The table is beside it: {table}")

    def _written(self, path: Path, table: Path, scope: Scope, by: User | None, *, confirmed: bool) -> Packaged:
        """Both files, or neither under the names asked for."""
        parts = [each.with_name(f"{each.name}.part") for each in (path, table)]
        try:
            with parts[0].open("wb") as questions, parts[1].open("wb") as beside:
                outlet = Outlet(questions, beside)
                packaged = take_questions(outlet, scope, by=by, now=timezone.now(), confirmed=confirmed)
            parts[0].replace(path)
            parts[1].replace(table)
        except OSError as error:
            raise CommandError(f"{path} cannot be written ({error.strerror}).") from None
        except NothingToTake as nothing:
            why = " ".join(left_out_sentences(nothing.packaged))
            raise CommandError(f"No confirmed plant of these pairs has a picture that may leave. {why}") from None
        finally:
            for part in parts:
                part.unlink(missing_ok=True)
        return packaged


def _standard(name: str | None) -> Standard | None:
    """The standard in use of this key or name; without a name none, which means all dangerous pairs."""
    if name is None:
        return None
    in_use = list(Standard.objects.in_use())
    wanted = name.casefold()
    found = [each for each in in_use if wanted in (each.key.casefold(), each.name.casefold())]
    if not found:
        known = ", ".join(sorted(each.key for each in in_use)) or "none"
        raise CommandError(f"No standard in use is called “{name}”. In use: {known}.")
    return found[0]


def _account(email: str | None) -> User | None:
    if email is None:
        return None
    found = User.objects.filter(email__iexact=email, is_active=True).first()
    if found is None:
        raise CommandError(f"No account has the address {email}; write the one that this person signs in with.")
    if not found.has_perm(MAY_TAKE):
        raise CommandError(f"{email} may not take questions out of the school; that is for organisers.")
    return found
