"""Where manage.py cannot run or make its environment, it says why in one sentence, without a traceback."""

import ast
from pathlib import Path

import pytest

from courses.config.remedies import NOT_INSTALLED, remedy
from tests.house import PROJECT, House


@pytest.fixture
def house(tmp_path: Path) -> House:
    return House(tmp_path)


def test_a_python_too_old_is_refused_in_words(house: House):
    (house.site / "sitecustomize.py").write_text("import sys\nsys.version_info = (3, 8, 1)\n")
    assert "needs Python 3.11 or newer, and this is Python 3.8" in house.refusal()


def test_the_first_file_parses_on_a_very_old_python():
    ast.parse((PROJECT / "manage.py").read_text(), feature_version=(3, 4))


def test_windows_is_refused_in_words(house: House):
    (house.site / "sitecustomize.py").write_text("import os\nos.name = 'nt'\n")
    assert "Windows Subsystem for Linux" in house.refusal()


def test_a_python_without_venv_is_told_the_package_and_the_real_error(house: House):
    (house.site / "venv.py").write_text(
        "raise SystemExit('Not created because ensurepip is not\\navailable.\\nFailing command: x')"
    )
    refusal = house.refusal()
    assert "sudo apt install python3-venv" in refusal
    assert "Failing command: x" in refusal


def test_no_network_is_told_what_to_do(house: House):
    refusal = house.refusal(FAKE_FAILURE="error: Failed to fetch django\n  Caused by: dns error")
    assert "connect this machine to the network" in refusal
    assert "Failed to fetch django" in refusal


def test_another_failure_names_the_log_that_holds_all_of_it(house: House):
    refusal = house.refusal(FAKE_FAILURE="one\nerror: the hedge is on fire\nthree")
    assert f"{house.folder}/.var/environment.log (the error was: error: the hedge is on fire)" in refusal
    assert "three" in (house.folder / ".var" / "environment.log").read_text()


def test_a_full_disk_is_told_how_much_to_free(house: House):
    assert "free about 1 GB" in house.refusal(FAKE_FAILURE="error: No space left on device (os error 28)")


def test_a_folder_that_cannot_be_written_to_is_named(house: House):
    (house.site / "sitecustomize.py").write_text(
        "import os\ndef mkdir(path, *rest): raise OSError(30, 'Read-only file system', str(path))\nos.mkdir = mkdir\n"
    )
    assert f"{house.folder} cannot be written to" in house.refusal()


def test_a_missing_lock_file_is_named(house: House):
    (house.folder / "courses" / "requirements.lock").unlink()
    assert "courses/requirements.lock is missing" in house.refusal()


def test_a_folder_of_that_name_with_other_things_in_it_is_left_alone(house: House):
    house.write(".venv/letters/to_a_friend.txt", "Dear friend")
    assert "is not a Python environment" in house.refusal()
    assert (house.venv / "letters" / "to_a_friend.txt").exists()


def test_a_file_of_that_name_is_left_alone(house: House):
    house.write(".venv", "Dear friend")
    assert "is not a Python environment" in house.refusal()
    assert house.venv.read_text() == "Dear friend"


def test_a_python_that_cannot_be_started_is_told(house: House):
    house.start()
    (house.venv / "bin" / "python").unlink()
    (house.venv / "bin" / "python").write_text("not a program")
    assert "does not run" in house.refusal()


def test_an_environment_that_takes_no_effect_does_not_start_itself_for_ever(house: House):
    house.start()
    assert "does not take effect" in house.refusal(KENSPECKLE_ENTERING=str(house.venv))


def test_a_django_that_cannot_be_imported_is_told(house: House):
    house.start()
    next(house.venv.glob("lib/python*/site-packages/django/core/exceptions.py")).unlink()
    assert "Django cannot be imported" in house.refusal()


def test_settings_refuse_in_a_sentence(house: House):
    assert house.refusal("refuse") == "The settings were refused: PORT is a word; write a number."


def test_a_command_that_cannot_write_names_the_file(house: House):
    assert "Read-only file system: .var/keys" in house.refusal("write")


def test_a_command_that_is_stopped_ends_without_a_traceback(house: House):
    assert house.refusal("stop") == "Stopped."


@pytest.mark.parametrize("command", ["version", "much", "exit"])
def test_a_command_whose_output_nobody_reads_on_ends_without_a_word(house: House, command: str):
    house.start()
    assert house.unread(command) == (1, "")


def test_a_command_that_ends_with_a_number_of_its_own_keeps_it(house: House):
    process = house.open("exit")
    process.communicate(timeout=60)
    assert process.returncode == 3


@pytest.mark.parametrize(
    ("output", "advice"),
    [
        ("Retrying: NewConnectionError: [Errno 111]\nERROR: No matching distribution found", "network"),
        ("ERROR: Could not find a version\n[Errno -3] Temporary failure in name resolution", "network"),
        ("ERROR: THESE PACKAGES DO NOT MATCH THE HASHES FROM THE REQUIREMENTS FILE.", "differs from the one"),
        ("ERROR: Could not install packages: [Errno 28] No space left on device", "disk is full"),
        ("ERROR: Could not install packages: [Errno 13] Permission denied: 'x'", "cannot be written to"),
        ("ERROR: Failed building wheel for django", "whole log"),
        ("", "it said nothing"),
    ],
)
def test_what_pip_prints_becomes_advice(tmp_path: Path, output: str, advice: str):
    assert advice in remedy(output, tmp_path, tmp_path / "log", NOT_INSTALLED)
