"""Reading the environment. What cannot be understood is refused in words, never guessed."""

import os
import secrets
from collections.abc import Mapping
from pathlib import Path
from zoneinfo import ZoneInfo

from django.core.exceptions import ImproperlyConfigured


def settings_file(path: Path) -> dict[str, str]:
    """NAME=VALUE lines of the file that `open_school` writes; empty where there is no file."""
    if not path.is_file():
        return {}
    lines: dict[str, str] = {}
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), start=1):
        stripped = line.strip()
        if not stripped or stripped.startswith("#"):
            continue
        name, equals, value = stripped.partition("=")
        if not equals:
            raise ImproperlyConfigured(f"{path.name}, line {number}: expected NAME=VALUE, found {stripped!r}.")
        lines[name.strip()] = value.strip()
    return lines


class Environment:
    """Words, switches and numbers from the environment, with a file of defaults under it."""

    def __init__(self, defaults: Mapping[str, str], environ: Mapping[str, str] = os.environ) -> None:
        self._values = {**defaults, **environ}

    def word(self, name: str, default: str = "") -> str:
        return self._values.get(name, default).strip()

    def switch(self, name: str, default: bool = False) -> bool:
        """True or False for the words yes/no, true/false, on/off, 1/0."""
        word = self.word(name, "yes" if default else "no").lower()
        if word in {"yes", "true", "on", "1"}:
            return True
        if word in {"no", "false", "off", "0", ""}:
            return False
        raise ImproperlyConfigured(f"{name} is {word!r}; write yes or no.")

    def number(self, name: str, default: int, lowest: int = 0) -> int:
        word = self.word(name, str(default))
        try:
            value = int(word)
        except ValueError as error:
            raise ImproperlyConfigured(f"{name} is {word!r}; write a whole number.") from error
        if value < lowest:
            raise ImproperlyConfigured(f"{name} is {value}; it must be at least {lowest}.")
        return value

    def address(self, name: str, default: str) -> str:
        """An http(s) address without a trailing slash."""
        word = self.word(name, default).rstrip("/")
        if not word.startswith(("https://", "http://")) or " " in word:
            raise ImproperlyConfigured(f"{name} is {word!r}; write an address such as https://school.example.")
        return word

    def time_zone(self, name: str, default: str) -> str:
        word = self.word(name, default)
        try:
            ZoneInfo(word)
        except (KeyError, ValueError, OSError) as error:
            raise ImproperlyConfigured(f"{name} is {word!r}; write a zone such as Europe/Dublin.") from error
        return word


def secret(folder: Path, name: str) -> str:
    """A key kept in a file that only its owner may read; made on first need, outside the repository."""
    path = folder / name
    if path.is_file():
        return path.read_text(encoding="ascii").strip()
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    fresh = secrets.token_urlsafe(64)
    try:
        descriptor = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError:  # another process of the same start was first
        return path.read_text(encoding="ascii").strip()
    with os.fdopen(descriptor, "w", encoding="ascii") as file:
        file.write(fresh)
    return fresh
