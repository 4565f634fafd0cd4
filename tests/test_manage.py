"""manage.py makes its own environment, enters it, and makes it again when it no longer fits."""

import hashlib
import json
import os
import pty
import signal
import subprocess
import sys
import time
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from courses.config.environment import STAMP
from tests.house import PYTHON, STUB, House


@pytest.fixture
def house(tmp_path: Path) -> House:
    return House(tmp_path)


def test_a_command_runs_inside_the_environment_that_it_has_made(house: House):
    first = house.start("version", "--plain")
    assert "There is no environment yet: making .venv." in first
    assert f"ran version --plain in {house.venv} with courses.config.settings school" in first


def test_the_second_start_makes_nothing_and_says_nothing_more(house: House):
    house.start()
    assert house.start() == f"ran version in {house.venv} with courses.config.settings school\n"
    assert house.installations == 1


def test_the_lock_file_is_installed_with_its_hashes(house: House):
    house.start()
    assert "pip sync" in house.calls.read_text()
    assert f"--require-hashes {house.folder}/courses/requirements.lock" in house.calls.read_text()


def test_the_tests_have_settings_of_their_own(house: House):
    assert "with tests.settings" in house.start("test")


def test_only_the_demo_is_announced_as_one_before_settings_are_read(house: House):
    assert "with courses.config.settings demo" in house.start("demo", "--no-serve")
    assert "with courses.config.settings school" in house.start("migrate")


def test_a_container_can_turn_the_environment_off(house: House):
    for name, text in STUB.items():
        house.write(name, text)
    assert f"in {sys.base_prefix}" in house.start(KENSPECKLE_NO_VENV="1")
    assert not house.venv.exists()


def test_without_uv_pip_installs_the_wheel_whose_hash_is_in_the_lock_file(house: House):
    wheel = house.folder / "django-1.0-py3-none-any.whl"
    about = {
        "django-1.0.dist-info/METADATA": "Metadata-Version: 2.1\nName: django\nVersion: 1.0\n",
        "django-1.0.dist-info/WHEEL": "Wheel-Version: 1.0\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
        "django-1.0.dist-info/RECORD": "",
    }
    with zipfile.ZipFile(wheel, "w") as archive:
        for name, text in {**STUB, **about}.items():
            archive.writestr(name, text)
    digest = hashlib.sha256(wheel.read_bytes()).hexdigest()
    house.write("courses/requirements.lock", f"django==1.0 --hash=sha256:{digest}\n")
    (house.tools / "uv").unlink()
    told = house.start(PIP_CONFIG_FILE=os.devnull, PIP_NO_INDEX="1", PIP_FIND_LINKS=str(house.folder))
    assert f"ran version in {house.venv}" in told


# What makes it start again.


def mend(house: House) -> str:
    """The reason given for making the environment again, after which it works and stays."""
    told = house.start()
    assert house.installations == 2
    house.start()
    assert house.installations == 2
    return told.partition(":")[0]


def test_a_changed_lock_file_makes_it_again(house: House):
    house.start()
    house.write("courses/requirements.lock", "django==1\n")
    assert mend(house) == "The list of packages has changed"


def test_another_python_makes_it_again(house: House):
    house.start()
    stamp = json.loads((house.venv / STAMP).read_text())
    (house.venv / STAMP).write_text(json.dumps({**stamp, "python": ".cpython-39-other.so"}))
    assert mend(house) == "The environment was made by another Python"


def test_a_folder_that_was_moved_makes_it_again(house: House):
    house.start()
    house.folder = house.folder.rename(house.folder.with_name("moved"))
    assert mend(house) == "The environment was made in another folder"


def test_a_linked_environment_is_never_emptied(house: House):
    house.start()
    elsewhere = house.venv.rename(house.venv.with_name("in-use"))
    house.venv.symlink_to(elsewhere)
    house.folder = house.folder.rename(house.folder.with_name("moved"))
    house.venv.unlink(missing_ok=True)
    house.venv.symlink_to(house.folder / "in-use")
    assert "is a link: remove the link and run again." in house.refusal()
    assert (house.folder / "in-use" / STAMP).is_file()


def test_an_environment_whose_python_is_gone_is_made_again(house: House):
    house.start()
    (house.venv / "bin" / "python").unlink()
    assert mend(house) == "The environment is broken"


def test_an_environment_made_by_somebody_else_is_made_again(house: House):
    subprocess.run([PYTHON, "-m", "venv", "--without-pip", house.venv], check=True)
    house.calls.write_text("the installation by hand\n")
    assert mend(house) == "The environment is unfinished or somebody else's"


def test_a_stamp_that_cannot_be_read_is_no_stamp(house: House):
    house.start()
    (house.venv / STAMP).write_text("{")
    assert mend(house) == "The environment is unfinished or somebody else's"


# What happens in between.


def wait_for(event: Callable[[], bool]) -> None:
    """Wait for something another process does; ten seconds at most."""
    until = time.monotonic() + 10
    while not event():
        assert time.monotonic() < until
        time.sleep(0.02)


def test_an_interrupted_installation_leaves_no_stamp_and_starts_afresh(house: House):
    process = house.open(FAKE_WAITS="1")
    wait_for(lambda: house.installations == 1)
    os.killpg(process.pid, signal.SIGINT)
    told = process.communicate(timeout=10)[0]
    assert told.endswith("run the same command again and it starts afresh.\n")
    assert not (house.venv / STAMP).exists()
    house.go_on()
    assert mend(house) == "The environment is unfinished or somebody else's"


def test_two_at_once_install_once_and_both_run(house: House):
    first = house.open(FAKE_WAITS="1")
    wait_for(lambda: house.installations == 1)
    second = house.open()
    assert second.stdout is not None
    assert second.stdout.readline() == "Another process is making .venv: waiting for it.\n"
    house.go_on()
    assert f"ran version in {house.venv}" in first.communicate(timeout=30)[0]
    assert f"ran version in {house.venv}" in second.communicate(timeout=30)[0]
    assert house.installations == 1


def test_what_a_killed_start_left_running_is_waited_for(house: House):
    killed = house.open(FAKE_WAITS="1")
    wait_for(lambda: house.installations == 1)
    killed.kill()
    killed.communicate()
    second = house.open()
    assert second.stdout is not None
    assert second.stdout.readline() == "Another process is making .venv: waiting for it.\n"
    house.go_on()
    assert f"ran version in {house.venv}" in second.communicate(timeout=30)[0]


def test_what_takes_longer_than_a_second_shows_progress(house: House):
    ours, theirs = pty.openpty()
    process = house.open(stdout=theirs, FAKE_WAITS="1")
    os.close(theirs)
    told = b""
    while b"\r  installing the packages: 1 s" not in told:
        told += os.read(ours, 10_000)
    house.go_on()
    process.wait(timeout=30)
    os.close(ours)
