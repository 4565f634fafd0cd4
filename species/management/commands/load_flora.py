"""`manage.py load_flora`: the tables of species, characters, pairs and modules into the database."""

import json
from argparse import ArgumentParser
from dataclasses import asdict
from pathlib import Path
from typing import Any

from django.core.management import BaseCommand, CommandError
from django.utils import timezone

from species.actions.flora.loading import (
    DATA_FOLDER,
    Absent,
    LoadReport,
    TablesHaveProblems,
    load_flora,
    read_tables,
)
from species.actions.flora.school_edits import SchoolEdit
from species.queries.table_sentences import sentence_about
from species.rules.tables.problems import Problem


class Command(BaseCommand):
    """Check all tables, say everything that is wrong, and load them only if nothing is."""

    help = "Load the species, characters, lookalike pairs and modules from their CSV tables; repeatable."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument(
            "--folder", type=Path, default=DATA_FOLDER,
            help="folder of the tables (by default those that come with the program)",
        )  # fmt: skip
        parser.add_argument("--dry-run", action="store_true", help="check and compare, but change nothing")
        parser.add_argument(
            "--prune", action="store_true",
            help="also remove species, pairs, characters and modules that are not in the tables, unless used",
        )  # fmt: skip
        parser.add_argument(
            "--replace-edits", action="store_true",
            help="let the tables replace what the school itself wrote into the state table (by default it is kept)",
        )  # fmt: skip
        parser.add_argument("--json", action="store_true", help="report as JSON")

    def handle(self, *args: Any, **options: Any) -> None:
        folder: Path = options["folder"]
        if not folder.is_dir():
            raise CommandError(f"{folder} is no folder; name one with the tables, or leave out --folder.")
        try:
            report = load_flora(
                read_tables(folder),
                prune=options["prune"],
                dry_run=options["dry_run"],
                replace_edits_at=timezone.now() if options["replace_edits"] else None,
            )
        except TablesHaveProblems as refusal:
            self._refuse(refusal.problems, options["json"])
            return
        if options["json"]:
            self._print_json({**_as_json(report), "dry_run": options["dry_run"], "problems": []})
        elif options["verbosity"] > 0:
            self._print_report(report, options["dry_run"], options["prune"])

    def _refuse(self, problems: tuple[Problem, ...], as_json: bool) -> None:
        if as_json:
            found = [
                {
                    "file": each.file, "row": each.row, "field": each.field, "fault": each.fault.name.lower(),
                    "values": dict(each.values), "sentence": sentence_about(each),
                }
                for each in problems
            ]  # fmt: skip
            self._print_json({"tables": {}, "absent": [], "problems": found})
        else:
            for each in problems:
                self.stderr.write(sentence_about(each))
        count = "1 problem" if len(problems) == 1 else f"{len(problems)} problems"
        raise CommandError(f"{count} in the tables; nothing was changed.")

    def _print_json(self, content: dict[str, Any]) -> None:
        self.stdout.write(json.dumps(content, indent=2, ensure_ascii=False))

    def _print_report(self, report: LoadReport, dry_run: bool, prune: bool) -> None:
        for table, changes in report.tables.items():
            line = f"{table}: {changes.added} added, {changes.changed} changed, {changes.unchanged} unchanged"
            self.stdout.write(f"{line}, {changes.removed} removed" if changes.removed else line)
        for each in report.absent:
            self.stdout.write(_sentence_on(each, prune))
        for edit in report.school_edits:
            self.stdout.write(_sentence_on_edit(edit))
        if not report.anything:
            self.stdout.write("The database already says what the tables say; nothing was changed.")
        elif dry_run:
            self.stdout.write("A dry run: nothing was changed.")


def _sentence_on(absent: Absent, prune: bool) -> str:
    what = f"{absent.model} {absent.key} is not in the tables"
    if not absent.kept:
        return f"{what}; it was removed."
    if absent.held_by:
        return f"{what}; it was kept, because it is in use ({absent.held_by})."
    return f"{what}; it was kept." if prune else f"{what}; it was kept (--prune removes what is not in use)."


def _sentence_on_edit(edit: SchoolEdit) -> str:
    where = f"state table, {edit.species}, {edit.character}"
    what = f"{where}: the school wrote '{edit.school}', the tables say '{edit.tables}'"
    if edit.replaced:
        return f"{what}; the tables replaced it, and the history of the cell keeps the school's words."
    return f"{what}; the school's words were kept (--replace-edits takes those of the tables)."


def _as_json(report: LoadReport) -> dict[str, Any]:
    return {
        "tables": {name: asdict(changes) for name, changes in report.tables.items()},
        "absent": [asdict(each) for each in report.absent],
        "school_edits": [asdict(each) for each in report.school_edits],
    }
