"""What to do when the environment cannot be made: one sentence, from what a tool printed as it failed."""

import os
import shutil
from pathlib import Path

DISK_FULL = "The disk is full: free about 1 GB and run the same command again."
READ_ONLY = (
    "{folder} cannot be written to: copy the project to a folder of your own and run it there "
    "(the error was: {detail})."
)
NO_VENV = (
    "Python could not make an environment, its venv module may be missing: on Debian or Ubuntu "
    "`sudo apt install python3-venv` brings it, then run the same command again (the error was: {detail})."
)
NO_NETWORK = (
    "The packages could not be fetched: connect this machine to the network (behind a proxy, set "
    "HTTPS_PROXY) and run the same command again (the error was: {detail})."
)
WRONG_HASH = (
    "A package differs from the one recorded in courses/requirements.lock and was not installed: run the "
    "same command again, and if it stays so, do not trust where it came from (the error was: {detail})."
)
NOT_INSTALLED = "Installing the packages failed: the whole log is in {log} (the error was: {detail})."
NOT_MADE = "The environment could not be made (the error was: {detail})."

# What the tools print, in small letters, and the sentence that helps. The first that fits is taken.
SIGNS = (
    (("no space left on device",), DISK_FULL),
    (("read-only file system", "permission denied"), READ_ONLY),
    (("ensurepip", "no module named venv"), NO_VENV),
    (("do not match the hashes", "hash mismatch"), WRONG_HASH),
    (("name resolution", "dns error", "unreachable", "newconnectionerror", "max retries"), NO_NETWORK),
    (("connection refused", "timed out", "failed to fetch", "error sending request"), NO_NETWORK),
)
NEARLY_NOTHING = 64 * 2**20  # bytes


def remedy_for(error: OSError, folder: str | os.PathLike[str]) -> str:
    """The sentence for a file that cannot be written, read or started."""
    told = f"{error.strerror}: {error.filename}" if error.filename else f"{error.strerror}"
    return remedy(told, Path(folder), Path(folder), NOT_MADE)


def remedy(output: str, folder: Path, log: Path, otherwise: str) -> str:
    """The one sentence that helps, given what was printed; `otherwise` where no sign is known in it."""
    lines = [line.strip() for line in output.splitlines() if line.strip()] or ["it said nothing"]
    told = [line for line in lines if line.lower().startswith("error")] or lines
    small = output.lower()
    sentence = next((words for signs, words in SIGNS if any(sign in small for sign in signs)), otherwise)
    # A tool that ran out of room half-way often reports something else.
    if shutil.disk_usage(folder).free < NEARLY_NOTHING:
        sentence = DISK_FULL
    return sentence.format(folder=folder, log=log, detail=told[-1].rstrip(".")[:300])
