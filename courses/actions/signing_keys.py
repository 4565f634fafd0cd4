"""Making the first key that credentials are signed with, and replacing it."""

import json
import os
from contextlib import suppress
from pathlib import Path
from typing import Any

from courses.queries.signing_keys import SigningKeys, signing_keys, signing_keys_file
from courses.rules.tokens import new_key


def keys_to_sign_with() -> SigningKeys:
    """The keys there are; the first is made where there is none yet. Raises NoSigningKeys for a spoilt file."""
    if not signing_keys_file().exists():
        beside = _written_beside([new_key()])
        with suppress(FileExistsError):  # another process made it meanwhile: that one counts
            os.link(beside, signing_keys_file())
        beside.unlink()
    return signing_keys()


def rotate_signing_key() -> str:
    """A new key signs from now on. The private part of the old one is thrown away, its public part stays.

    What was signed before verifies as it did. Gives the name of the new key.
    """
    keys, added = keys_to_sign_with(), new_key()
    beside = _written_beside([*(dict(each) for each in keys.public.values()), added])
    beside.replace(signing_keys_file())
    return str(added["kid"])


def _written_beside(keys: list[dict[str, Any]]) -> Path:
    """A file of these keys in the same folder, readable by its owner alone."""
    signing_keys_file().parent.mkdir(parents=True, exist_ok=True)
    beside = signing_keys_file().with_suffix(f".{os.getpid()}")
    beside.unlink(missing_ok=True)
    handle = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(handle, "w", encoding="ascii") as file:
        json.dump({"keys": keys}, file)
    return beside
