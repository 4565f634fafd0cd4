"""`python3 manage.py test [pytest arguments]`: every check of the project, or pytest alone with them.

Without arguments: lint, import contracts, types, templates and migrations, then all tests, journeys in a real
browser among them. All are run and reported even where an earlier one fails; the last lines are pytest's own.
"""

import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from time import monotonic
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandParser

ROOMS = ("species", "assessments", "courses")
HELP = (
    "Without arguments: lint, import contracts, types, templates, migrations and all tests. "
    "With arguments: pytest with them, for instance `-k certificate` or `tests/journeys -x`. "
    "CHROMIUM=/path names the browser; REQUIRE_BROWSER=1 makes it an error that there is none."
)


@dataclass(frozen=True)
class Check:
    """One check beside the tests: its name in the summary and the arguments for this Python."""

    name: str
    arguments: tuple[str, ...]


CHECKS = (
    Check("lint", ("-m", "ruff", "check", "--output-format=concise", ".")),
    Check("imports", ("-c", "from importlinter.cli import lint_imports_command as go; go()")),
    Check("types", ("-m", "mypy", *ROOMS)),
    Check("templates", ("-m", "djlint", "templates", "--lint", "--quiet")),
    Check("migrations", ("manage.py", "makemigrations", "--check", "--dry-run")),
)


@dataclass(frozen=True)
class Outcome:
    """How a check ended: its whole output and the seconds it took."""

    check: Check
    passed: bool
    output: str
    seconds: float


class Command(BaseCommand):
    """Django's own `test` is replaced, since the tests are pytest's."""

    help = HELP
    requires_system_checks = ()

    def run_from_argv(self, argv: list[str]) -> None:
        """Everything after `test` is pytest's, so it is not parsed here."""
        if argv[2:] in (["--help"], ["-h"]):
            self.stdout.write(f"usage: {argv[0]} test [pytest arguments]\n\n{HELP}")
            return
        sys.exit(self.run_all(argv[2:]))

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("arguments", nargs="*")

    def handle(self, *args: Any, **options: Any) -> None:
        if code := self.run_all(options["arguments"]):
            sys.exit(code)

    def run_all(self, arguments: list[str]) -> int:
        """Run what was asked for; 0 when all of it passed, else pytest's code, else 1."""
        with TemporaryDirectory(prefix="kenspeckle-") as var:
            environment = {
                "KENSPECKLE_TEST_VAR": var,
                **os.environ,
                "DJANGO_SETTINGS_MODULE": "tests.settings",
            }
            outcomes = [] if arguments else self.report_checks(environment)
            environment["KENSPECKLE_CHECKS"] = in_one_line(outcomes)
            code = run_pytest(arguments, environment)
        return code or int(not all(outcome.passed for outcome in outcomes))

    def report_checks(self, environment: dict[str, str]) -> list[Outcome]:
        """Run the checks two at a time and print each in its turn, with its output where it failed."""
        self.stdout.write("Checking " + ", ".join(check.name for check in CHECKS) + "; then the tests.")
        self.stdout.flush()
        outcomes = []
        with ThreadPoolExecutor(max_workers=2) as pool:
            for outcome in pool.map(lambda check: run_check(check, environment), CHECKS):
                outcomes.append(outcome)
                if not outcome.passed:
                    self.stdout.write(outcome.output)
                verdict = "ok" if outcome.passed else "FAILED (see above)"
                self.stdout.write(f"{outcome.check.name}: {verdict}, {outcome.seconds:.1f} s")
                self.stdout.flush()
        return outcomes


def run_check(check: Check, environment: dict[str, str]) -> Outcome:
    """Run one check from the top of the project and keep what it says."""
    began = monotonic()
    ended = subprocess.run(
        [sys.executable, *check.arguments],
        cwd=settings.BASE_DIR, env=environment, stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace", check=False,
    )  # fmt: skip
    return Outcome(check, ended.returncode == 0, ended.stdout.rstrip(), monotonic() - began)


def in_one_line(outcomes: list[Outcome]) -> str:
    """The line that stands just above pytest's own summary; empty where nothing was checked."""
    words = ", ".join(f"{outcome.check.name} {'ok' if outcome.passed else 'FAILED'}" for outcome in outcomes)
    return f"Checks: {words}." if outcomes else ""


def run_pytest(arguments: list[str], environment: dict[str, str]) -> int:
    """Run pytest with these arguments, or everything on two cores; its output goes to this terminal."""
    # Two processes took 42 s where one took 57 s; a module stays in one of them, for what its tests share.
    chosen = arguments or ["--numprocesses=2", "--dist=loadfile"]
    command = [sys.executable, "-m", "pytest", "-p", "tests.closing", *chosen]
    return subprocess.run(command, cwd=Path(settings.BASE_DIR), env=environment, check=False).returncode
