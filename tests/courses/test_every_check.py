"""`manage.py test` runs and reports every check; arguments are pytest's, and so are the last lines."""

import os
import subprocess
import sys

import pytest
from django.conf import settings
from django.core.management import load_command_class

from courses.management.commands import test as command
from courses.management.commands.test import Check, Outcome

GOOD = Check("good", ("-c", "print('all is well')"))
BAD = Check("bad", ("-c", "import sys; print('the hedge is on fire'); sys.exit(3)"))


Run = tuple[list[str], dict[str, str]]


@pytest.fixture
def pytest_runs(monkeypatch: pytest.MonkeyPatch) -> list[Run]:
    """The arguments and variables that the command would have started pytest with."""
    runs: list[Run] = []
    monkeypatch.setattr(command, "run_pytest", lambda *started: runs.append(started) or 0)
    return runs


def run(*arguments: str) -> int:
    with pytest.raises(SystemExit) as ended:
        load_command_class("courses", "test").run_from_argv(["manage.py", "test", *arguments])
    return int(ended.value.code or 0)


def test_every_check_is_reported_though_an_earlier_one_failed(monkeypatch, pytest_runs, capsys):
    monkeypatch.setattr(command, "CHECKS", (BAD, GOOD))
    assert run() == 1
    told = capsys.readouterr().out
    assert "the hedge is on fire" in told
    assert told.index("bad: FAILED") < told.index("good: ok")


def test_the_tests_run_though_a_check_failed_and_carry_its_line(monkeypatch, pytest_runs):
    monkeypatch.setattr(command, "CHECKS", (GOOD, BAD))
    run()
    ((arguments, environ),) = pytest_runs
    assert arguments == []
    assert environ["KENSPECKLE_CHECKS"] == "Checks: good ok, bad FAILED."


def test_it_passes_when_everything_has_passed(monkeypatch, pytest_runs, capsys):
    monkeypatch.setattr(command, "CHECKS", (GOOD,))
    assert run() == 0
    assert "all is well" not in capsys.readouterr().out


def test_it_fails_with_the_code_of_pytest(monkeypatch, pytest_runs):
    monkeypatch.setattr(command, "CHECKS", (GOOD,))
    monkeypatch.setattr(command, "run_pytest", lambda arguments, environ: 5)
    assert run() == 5


def test_arguments_go_to_pytest_untouched_and_nothing_else_is_checked(monkeypatch, pytest_runs):
    monkeypatch.setattr(command, "CHECKS", (BAD,))
    assert run("tests/species", "-k", "not slow", "--lf", "-x") == 0
    ((arguments, environ),) = pytest_runs
    assert arguments == ["tests/species", "-k", "not slow", "--lf", "-x"]
    assert environ["KENSPECKLE_CHECKS"] == ""


def test_help_says_what_it_does_and_runs_nothing(pytest_runs, capsys):
    load_command_class("courses", "test").run_from_argv(["manage.py", "test", "--help"])
    assert "REQUIRE_BROWSER=1" in capsys.readouterr().out
    assert pytest_runs == []


def test_the_checks_are_those_the_project_promises():
    assert [check.name for check in command.CHECKS] == ["lint", "imports", "types", "templates", "migrations"]


def test_the_summary_is_one_line():
    outcomes = [Outcome(GOOD, True, "", 1.0), Outcome(BAD, False, "a\nb", 1.0)]
    assert "\n" not in command.in_one_line(outcomes)


def test_they_get_settings_and_a_folder_of_their_own(monkeypatch, pytest_runs):
    monkeypatch.delenv("KENSPECKLE_TEST_VAR", raising=False)
    run("-x")
    ((_arguments, environ),) = pytest_runs
    assert environ["DJANGO_SETTINGS_MODULE"] == "tests.settings"
    assert not os.path.exists(environ["KENSPECKLE_TEST_VAR"])  # it is gone when they are over


def journeys_without_a_browser(**environ: str) -> "subprocess.CompletedProcess[str]":
    plain = ["-q", "-p", "tests.closing", "-p", "no:cacheprovider"]
    return subprocess.run(
        [sys.executable, "-m", "pytest", *plain, "tests/journeys/test_watching.py"],
        cwd=settings.BASE_DIR, capture_output=True, text=True, check=False,
        env={"PATH": os.devnull, "HOME": os.environ.get("HOME", "/"), **environ},
    )  # fmt: skip


def test_journeys_without_a_browser_are_skipped_loudly():
    ended = journeys_without_a_browser(KENSPECKLE_CHECKS="Checks: lint ok.")
    assert ended.returncode == 0
    *_, loud, checks, summary = ended.stdout.strip().splitlines()
    assert "BROWSER TESTS WERE SKIPPED. No Chromium was found: install it" in loud
    assert checks == "Checks: lint ok."
    assert "skipped in" in summary


def test_a_required_browser_that_is_missing_is_an_error():
    ended = journeys_without_a_browser(REQUIRE_BROWSER="1")
    assert ended.returncode == 1
    assert "skipped" not in ended.stdout.strip().splitlines()[-1]
    assert "No Chromium was found: install it" in ended.stdout
