"""`manage.py import_characters`: a character table from a CSV file, all of it or nothing."""

import json
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.contrib.auth.models import User
from django.core.management import BaseCommand, CommandError
from django.utils import timezone

from species.actions.table_import import FileHasProblems, ImportReport, import_table
from species.queries.table_preview import ChangeLine, DisagreementLine
from species.queries.table_sentences import sentence_about


class Command(BaseCommand):
    """Check the whole file, say everything that is wrong, and take it only if nothing is."""

    help = "Bring a character table (as export_characters writes it) in; what the file does not name stays."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", type=Path)
        parser.add_argument("--by", metavar="EMAIL", help="whose change it is; the history names them")
        parser.add_argument("--why", default="", help="the reason, kept beside every change")
        parser.add_argument("--dry-run", action="store_true", help="check and compare, but change nothing")
        parser.add_argument("--json", action="store_true", help="report as JSON")

    def handle(self, *args: Any, **options: Any) -> None:
        path: Path = options["file"]
        try:
            content = path.read_bytes()
        except OSError as error:
            raise CommandError(f"{path} cannot be read ({error.strerror}); name a CSV file.") from error
        why = options["why"].strip() or f"import_characters {path.name}"
        try:
            report = import_table(
                path.name, content, by=_account(options["by"]), now=timezone.now(), why=why[:300],
                dry_run=options["dry_run"],
            )  # fmt: skip
        except FileHasProblems as refusal:
            for each in refusal.problems:
                self.stderr.write(sentence_about(each))
            count = "1 problem" if len(refusal.problems) == 1 else f"{len(refusal.problems)} problems"
            raise CommandError(f"{count} in the file; nothing was changed.") from refusal
        if options["json"]:
            self.stdout.write(json.dumps(_as_json(report, options["dry_run"]), indent=2, ensure_ascii=False))
        else:
            self._print(report, options["dry_run"])

    def _print(self, report: ImportReport, dry_run: bool) -> None:
        for species, character in report.changed:
            self.stdout.write(f"changed: {species}, {character}")
        for pair in report.preview.pairs:
            for word, lines in (("loses", pair.lost), ("gains", pair.gained)):
                for line in lines:
                    self.stdout.write(f"{pair.pair.key} {word} {_change(line)}")
        for each in report.preview.standing:
            self.stdout.write(_disagreement(each))
        self.stdout.write(f"{len(report.changed)} changed, {report.unchanged} unchanged.")
        if dry_run:
            self.stdout.write("A dry run: nothing was changed.")


def _account(email: str | None) -> User | None:
    if email is None:
        return None
    found = User.objects.filter(email__iexact=email, is_active=True).first()
    if found is None:
        raise CommandError(f"No account has the address {email}; invite the person first, or leave out --by.")
    if not found.has_perm("species.change_species"):
        raise CommandError(f"{email} may not change the character table; that is for tutors and organisers.")
    return found


def _change(line: ChangeLine) -> str:
    end = "; then nothing above ground tells the two apart there" if line.leaves_nothing else ""
    return f"{line.character} ({line.stages}; {line.months}): {line.before} now, {line.after} after{end}"


def _disagreement(line: DisagreementLine) -> str:
    new = "new: " if line.is_new else ""
    return f"{new}{line.pair.key} calls {line.character} decisive ({line.stages}); by the table it {line.said}"


def _as_json(report: ImportReport, dry_run: bool) -> dict[str, Any]:
    return {
        "dry_run": dry_run,
        "changed": [list(each) for each in report.changed],
        "unchanged": report.unchanged,
        "lost": [[p.pair.key, _change(line)] for p in report.preview.pairs for line in p.lost],
        "gained": [[p.pair.key, _change(line)] for p in report.preview.pairs for line in p.gained],
        "disagreements": [_disagreement(each) for each in report.preview.standing],
    }
