"""The project's own Python environment, `.venv`: made from the lock file, entered by every command.

Standard library only and nothing of Django, because this runs before any package is there.

There is one lock file for running and for testing. Measured on two cores with a fast line: everything takes
30 s with pip (20 s with uv) and 0.8 GB, what only the demo needs would take 17 s and 0.3 GB. A second file
would save those seconds once, and cost a second stamp, a second installation at the first test, and two
lists to keep in step.
"""

from __future__ import annotations

import fcntl
import hashlib
import json
import os
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from importlib.machinery import EXTENSION_SUFFIXES
from pathlib import Path

from courses.config.remedies import NO_VENV, NOT_INSTALLED, remedy, remedy_for

LOCK_FILE = "courses/requirements.lock"
STAMP = "kenspeckle.json"
PARTS = {"bin", "include", "lib", "lib64", "share", "pyvenv.cfg", ".gitignore", ".lock", STAMP}


class NotReady(Exception):
    """The environment cannot be made or entered; the message is one sentence for whoever is typing."""


def enter(root: str | os.PathLike[str]) -> None:
    """Replace this process by the same command run inside `root`/.venv, making or renewing that first.

    Returns at once when already inside, or when KENSPECKLE_NO_VENV=1 (in a container, where the packages
    are installed for the whole system). Raises NotReady with a sentence.
    """
    if os.environ.get("KENSPECKLE_NO_VENV") == "1":
        return
    folder = Path(root).resolve()
    venv = folder / ".venv"
    try:
        if fault(folder):
            prepare(folder)
    except OSError as error:
        raise NotReady(remedy_for(error, folder)) from error
    # The mark stops an environment that does not take effect (PYTHONHOME is set, say) from starting itself
    # for ever. Once inside it goes, so that it cannot mislead a child.
    mark = os.environ.pop("KENSPECKLE_ENTERING", "")
    if Path(sys.prefix).resolve() == venv.resolve():
        return
    if mark == str(venv):
        raise NotReady(f"{venv} does not take effect: unset PYTHONHOME or delete that folder and run again.")
    replace_process(venv)


def replace_process(venv: Path) -> None:
    """Start this very command line with the Python of the environment; does not return."""
    os.environ["KENSPECKLE_ENTERING"] = str(venv)
    python = str(venv / "bin" / "python")
    sys.stdout.flush()
    try:
        os.execv(python, [python, *sys.orig_argv[1:]])
    except OSError as error:
        raise NotReady(f"{python} does not run ({error.strerror}): delete .venv and run again.") from error


def wanted_stamp(folder: Path) -> dict[str, str]:
    """What the environment must have been made from, and by, to be used here."""
    try:
        lock = (folder / LOCK_FILE).read_bytes()
    except FileNotFoundError:
        told = f"{LOCK_FILE} is missing: this copy of the project is not whole, so fetch it again."
        raise NotReady(told) from None
    return {
        "folder": str(folder / ".venv"),
        # The suffix of compiled modules holds Python's version, the system and its C library.
        "python": f"{EXTENSION_SUFFIXES[0]} {os.uname().machine}",
        "lock": hashlib.sha256(lock).hexdigest(),
    }


def fault(folder: Path) -> str:
    """Why `.venv` cannot be used as it is, as the beginning of a sentence; empty when it can.

    Raises NotReady where `.venv` is something that nobody would want to have deleted.
    """
    wanted = wanted_stamp(folder)
    venv = folder / ".venv"
    if not os.path.lexists(venv):
        return "There is no environment yet"
    if not venv.is_dir() or not ((venv / "pyvenv.cfg").is_file() or set(os.listdir(venv)) <= PARTS):
        raise NotReady(f"{venv} is not a Python environment: move it out of the way and run again.")
    try:
        found = json.loads((venv / STAMP).read_text())
    except (FileNotFoundError, ValueError):
        return "The environment is unfinished or somebody else's"
    if found.get("folder") != wanted["folder"]:
        return "The environment was made in another folder"
    if found.get("python") != wanted["python"]:
        return "The environment was made by another Python"
    if found.get("lock") != wanted["lock"]:
        return "The list of packages has changed"
    packages = venv / "lib" / "python{}.{}".format(*sys.version_info) / "site-packages"
    whole = all(part.exists() for part in (venv / "pyvenv.cfg", venv / "bin" / "python", packages / "django"))
    return "" if whole else "The environment is broken"


def prepare(folder: Path) -> None:
    """Make `.venv` anew. The stamp is written last, so what was interrupted is never taken for finished."""
    log_of(folder).parent.mkdir(mode=0o700, exist_ok=True)
    with alone(log_of(folder).with_suffix(".lock")) as held:
        reason = fault(folder)
        if not reason:  # another process made it while this one waited
            return
        if (folder / ".venv").is_symlink():  # making it anew would empty what it points to, which may be in use
            raise NotReady(f"{reason}, and {folder / '.venv'} is a link: remove the link and run again.")
        print(f"{reason}: making .venv. This happens once and takes about a minute.", flush=True)
        stamp = folder / ".venv" / STAMP
        stamp.unlink(missing_ok=True)
        uv = shutil.which("uv")
        run("making the environment", making(stamp.parent, uv), folder, held, NO_VENV)
        run("installing the packages", filling(folder, uv), folder, held, NOT_INSTALLED)
        unfinished = stamp.with_suffix(".part")
        unfinished.write_text(json.dumps(wanted_stamp(folder), indent=1))
        unfinished.replace(stamp)
        print("The environment is ready.", flush=True)


def making(venv: Path, uv: str | None) -> list[str]:
    """The command that makes an empty environment; uv needs no pip inside it, so no ensurepip either."""
    base = getattr(sys, "_base_executable", None) or sys.executable  # not that of an environment around us
    return [base, "-m", "venv", "--clear", *(["--without-pip"] if uv else []), str(venv)]


def filling(folder: Path, uv: str | None) -> list[str]:
    """The command that fills the environment with exactly what the lock file names."""
    python, lock = str(folder / ".venv" / "bin" / "python"), str(folder / LOCK_FILE)
    if uv:
        return [uv, "pip", "sync", "--python", python, "--require-hashes", lock]
    # Byte-code is left to the first import: compiling all of it would take 20 s more.
    plain = ["--no-compile", "--no-input", "--disable-pip-version-check", "--progress-bar=off", "--retries=2"]
    return [python, "-m", "pip", "install", *plain, "--require-hashes", "-r", lock]


@contextmanager
def alone(path: Path) -> Iterator[int]:
    """Hold the lock on `path`, waiting for another process that has it; gives the descriptor."""
    with path.open("a") as file:
        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            print("Another process is making .venv: waiting for it.", flush=True)
            fcntl.flock(file, fcntl.LOCK_EX)
        yield file.fileno()


def log_of(folder: Path) -> Path:
    """Where the output of the last installation is kept."""
    return folder / ".var" / "environment.log"


def run(step: str, command: list[str], folder: Path, held: int, otherwise: str) -> None:
    """Run one command with a line of progress; raises NotReady with a sentence when it fails.

    The command inherits the lock: should this process be killed, nobody starts over before it has ended too.
    """
    log = log_of(folder)
    with log.open("w") as output:
        process = subprocess.Popen(
            command, cwd=folder, stdin=subprocess.DEVNULL, stdout=output, stderr=output, pass_fds=(held,)
        )
        try:
            wait_aloud(process, step, log)
        except BaseException:
            process.terminate()
            process.wait()
            raise
    if process.returncode != 0:
        raise NotReady(remedy(log.read_text(errors="replace"), folder, log, otherwise))


def wait_aloud(process: subprocess.Popen[bytes], step: str, log: Path) -> None:
    """Wait for the process and say how far it is: each second on a screen, every ten seconds in a file."""
    began = time.monotonic()
    screen = sys.stdout.isatty()
    said = 0
    while process.poll() is None:
        with suppress(subprocess.TimeoutExpired):
            process.wait(timeout=0.2)
        seconds = int(time.monotonic() - began)
        if seconds >= said + (1 if screen else 10):
            said = seconds
            found = log.read_text(errors="replace").count("Collecting ")
            line = f"  {step}: {seconds} s" + (f", {found} packages so far" if found else "")
            print(f"\r{line}" if screen else line, end="" if screen else "\n", flush=True)
    if screen and said:
        print()
