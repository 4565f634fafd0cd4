"""The project's own Python environment, `.venv`: made from the lock file, entered by every command.

Standard library only and nothing of Django, because this runs before any package is there.

There is one lock file for running and for testing. Measured on two cores with a fast line: everything takes 30 s
with pip (20 s with uv) and 0.8 GB, what only the demo needs would take 17 s and 0.3 GB. A second file would save
those seconds once, and cost a second stamp, a second installation at the first test, and two lists to keep in step.
"""

from __future__ import annotations

import errno
import fcntl
import hashlib
import json
import os
import platform
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.machinery import EXTENSION_SUFFIXES
from pathlib import Path

LOCK_FILE = "courses/requirements.lock"
STAMP = "kenspeckle.json"
NAMES_OF_AN_ENVIRONMENT = {"bin", "include", "lib", "lib64", "share", "pyvenv.cfg", ".gitignore", ".lock", STAMP}

DISK_FULL = "The disk is full: free about 1 GB and run the same command again."
READ_ONLY = "{folder} cannot be written to ({detail}): copy the project to a folder of your own and run it there."
NO_VENV = (
    "Python could not make an environment, its venv module may be missing: on Debian or Ubuntu "
    "`sudo apt install python3-venv` brings it, then run the same command again (the error was: {detail})."
)
NO_NETWORK = (
    "The packages could not be fetched: connect this machine to the network (behind a proxy, set HTTPS_PROXY) "
    "and run the same command again (the error was: {detail})."
)
WRONG_HASH = (
    "A package differs from the one recorded in " + LOCK_FILE + " and was not installed: run the same command again, "
    "and if it stays so, do not trust the place it was fetched from (the error was: {detail})."
)
NOT_INSTALLED = "Installing the packages failed: the whole log is in {log} (the error was: {detail})."

# What the tools print, in small letters, and the sentence that helps. The first that fits is taken.
SIGNS = (
    (("no space left on device",), DISK_FULL),
    (("read-only file system", "permission denied"), READ_ONLY),
    (("ensurepip", "no module named venv"), NO_VENV),
    (("do not match the hashes", "hash mismatch"), WRONG_HASH),
    (("name resolution", "dns error", "unreachable", "newconnectionerror", "max retries exceeded"), NO_NETWORK),
    (("connection refused", "timed out", "failed to fetch", "error sending request", "sslerror"), NO_NETWORK),
)


class NotReady(Exception):
    """The environment cannot be made or entered; the message is one sentence for the person at the keyboard."""


def enter(root: str | os.PathLike[str]) -> None:
    """Replace this process by the same command run inside `root`/.venv, making or renewing that first.

    Returns at once when already inside, or when KENSPECKLE_NO_VENV=1 (in a container, where the packages are
    installed for the whole system). Raises NotReady with a sentence.
    """
    if os.environ.get("KENSPECKLE_NO_VENV") == "1":
        return
    folder = Path(root).resolve()
    try:
        if fault(folder):
            prepare(folder)
    except OSError as error:
        raise NotReady(sentence_for(f"{error.strerror}: {error.filename}", folder, NOT_INSTALLED)) from error
    venv = folder / ".venv"
    if Path(sys.prefix).resolve() == venv.resolve():
        return
    # Without this mark an environment that does not take effect (PYTHONHOME is set, say) would start itself for ever.
    if os.environ.pop("KENSPECKLE_ENTERING", "") == str(venv):
        raise NotReady(f"{venv} was started but did not take effect: unset PYTHONHOME, or delete it, and run again.")
    os.environ["KENSPECKLE_ENTERING"] = str(venv)
    python = str(venv / "bin" / "python")
    sys.stdout.flush()
    try:
        os.execv(python, [python, *sys.orig_argv[1:]])
    except OSError as error:
        raise NotReady(f"{python} does not run ({error.strerror}): delete the folder .venv and run again.") from error


def wanted_stamp(folder: Path) -> dict[str, str]:
    """What the environment must have been made from, and by, to be used here."""
    try:
        lock = (folder / LOCK_FILE).read_bytes()
    except FileNotFoundError:
        raise NotReady(f"{LOCK_FILE} is missing: this copy of the project is not whole, so fetch it again.") from None
    return {
        "folder": str(folder / ".venv"),
        "python": f"{EXTENSION_SUFFIXES[0]} {platform.machine()}",  # version, system and C library in one word
        "lock": hashlib.sha256(lock).hexdigest(),
    }


def fault(folder: Path) -> str:
    """Why `.venv` cannot be used as it is, as the beginning of a sentence; empty when it can."""
    wanted = wanted_stamp(folder)
    venv = folder / ".venv"
    if not os.path.lexists(venv):
        return "There is no environment yet"
    if not venv.is_dir() or not ((venv / "pyvenv.cfg").is_file() or set(os.listdir(venv)) <= NAMES_OF_AN_ENVIRONMENT):
        raise NotReady(f"{venv} is not a Python environment: move it out of the way and run the same command again.")
    try:
        found = json.loads((venv / STAMP).read_text())
    except (FileNotFoundError, ValueError):
        return "The environment is unfinished or somebody else's"
    packages = venv / "lib" / "python{}.{}".format(*sys.version_info) / "site-packages"
    whole = all(part.exists() for part in (venv / "pyvenv.cfg", venv / "bin" / "python", packages / "django"))
    reasons = {
        "The environment was made in another folder": found.get("folder") != wanted["folder"],
        "The environment was made by another Python": found.get("python") != wanted["python"],
        "The list of packages has changed": found.get("lock") != wanted["lock"],
        "The environment is broken": not whole,
    }
    return next((reason for reason, holds in reasons.items() if holds), "")


def prepare(folder: Path) -> None:
    """Make `.venv` anew; the stamp is written last, so what was interrupted is never taken for finished."""
    var = folder / ".var"
    var.mkdir(mode=0o700, exist_ok=True)
    with alone(var / "environment.lock") as held:
        reason = fault(folder)
        if not reason:  # another process made it while this one waited
            return
        print(f"{reason}: making .venv. This happens once and takes about a minute.", flush=True)
        stamp = folder / ".venv" / STAMP
        stamp.unlink(missing_ok=True)
        uv = shutil.which("uv")
        base = getattr(sys, "_base_executable", None) or sys.executable
        make = [base, "-m", "venv", "--clear", *(["--without-pip"] if uv else []), str(stamp.parent)]
        run("making the environment", make, folder, held, NO_VENV)
        run("installing the packages", installing(folder, uv), folder, held, NOT_INSTALLED)
        unfinished = stamp.with_suffix(".part")
        unfinished.write_text(json.dumps(wanted_stamp(folder), indent=1))
        unfinished.replace(stamp)
        print("The environment is ready.", flush=True)


def installing(folder: Path, uv: str | None) -> list[str]:
    """The command that fills the environment with exactly what the lock file names."""
    python, lock = str(folder / ".venv" / "bin" / "python"), str(folder / LOCK_FILE)
    if uv:
        return [uv, "pip", "sync", "--python", python, "--require-hashes", lock]
    # Byte-code is left to the first import: compiling all of it would take 20 s more.
    quiet = ["--no-compile", "--no-input", "--disable-pip-version-check", "--progress-bar", "off", "--retries", "2"]
    return [python, "-m", "pip", "install", *quiet, "--require-hashes", "-r", lock]


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


def run(step: str, command: list[str], folder: Path, held: int, otherwise: str) -> None:
    """Run one command with a line of progress; raises NotReady with a sentence when it fails.

    The command inherits the lock: should this process be killed, nobody starts over until the command has ended too.
    """
    log = folder / ".var" / "environment.log"
    with log.open("w") as output:
        process = subprocess.Popen(command, cwd=folder, stdin=subprocess.DEVNULL, stdout=output,
                                   stderr=subprocess.STDOUT, pass_fds=(held,))  # fmt: skip
        try:
            wait_aloud(process, step, log)
        except BaseException:
            process.terminate()
            process.wait()
            raise
    if process.returncode != 0:
        raise NotReady(sentence_for(log.read_text(errors="replace"), folder, otherwise))


def wait_aloud(process: subprocess.Popen[bytes], step: str, log: Path) -> None:
    """Wait for the process and say how far it is: each second on a screen, every ten seconds in a file."""
    began = time.monotonic()
    screen = sys.stdout.isatty()
    said = 0
    while process.poll() is None:
        time.sleep(0.1)
        seconds = int(time.monotonic() - began)
        if seconds >= said + (1 if screen else 10):
            said = seconds
            found = log.read_text(errors="replace").count("Collecting ")
            packages = f", {found} packages so far" if found else ""
            line = f"  {step}: {seconds} s{packages}"
            print(f"\r{line}" if screen else line, end="" if screen else "\n", flush=True)
    if screen and said:
        print()


def sentence_for(output: str, folder: Path, otherwise: str) -> str:
    """The one sentence that helps, from what a tool printed before it failed."""
    lines = [line.strip() for line in output.splitlines() if line.strip()] or ["it said nothing"]
    told = [line for line in lines if line.lower().startswith("error")] or lines
    small = output.lower()
    fitting = (sentence for signs, sentence in SIGNS if any(sign in small for sign in signs))
    sentence = next(fitting, otherwise)
    # A tool that ran out of space half-way often reports something else.
    if shutil.disk_usage(folder).free < 64 * 2**20 or os.strerror(errno.ENOSPC).lower() in small:
        sentence = DISK_FULL
    return sentence.format(folder=folder, detail=told[-1].rstrip(".")[:300], log=folder / ".var" / "environment.log")
