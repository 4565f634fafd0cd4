"""The keys that health notes are sealed with: a file of their own, beside the database and never in it.

The file is read at each use, so a key that was replaced by one process is known to all at once. A line is an
id of eight letters and 64 hex digits; the last line seals.
"""

from pathlib import Path

from django.conf import settings

from courses.rules.sealing import ID_BYTES, KEY_BYTES, KeyRing


class NoKeys(Exception):
    """The file is missing or says nothing that could be a key; its sentence names it."""


def keys_file() -> Path:
    """Where the keys are."""
    return Path(settings.VAR_DIR) / "keys" / "health_keys"


def health_keys() -> KeyRing:
    """The keys there are. Raises NoKeys."""
    try:
        lines = keys_file().read_text(encoding="ascii").split("\n")
    except (OSError, UnicodeDecodeError) as error:
        raise NoKeys(f"{keys_file()} cannot be read.") from error
    keys: dict[str, bytes] = {}
    for line in filter(None, lines):
        name, _space, digits = line.partition(" ")
        if len(name) != ID_BYTES or len(digits) != 2 * KEY_BYTES:
            raise NoKeys(f"{keys_file()} holds a line that is no key.")
        keys[name] = bytes.fromhex(digits)
    if not keys:
        raise NoKeys(f"{keys_file()} holds no key.")
    return KeyRing(list(keys)[-1], keys)
