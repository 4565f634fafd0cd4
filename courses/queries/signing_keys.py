"""The keys that credentials are signed with: a file of their own, beside the database and never in it.

The file is read at each use, so a key that was replaced by one process is known to all at once. It holds a JWK
set; the last key signs and is the only one with its private part, the others stay so that what they signed can
still be checked.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from django.conf import settings

from courses.rules.tokens import public_part


class NoSigningKeys(Exception):
    """The file is missing or says nothing that could be a key; its sentence names it."""


@dataclass(frozen=True)
class SigningKeys:
    """`private`: the key that signs; `public`: all of them by their names, oldest first. Never printed."""

    private: Mapping[str, Any]
    public: Mapping[str, Mapping[str, Any]]

    def __repr__(self) -> str:
        return f"SigningKeys({len(self.public)} keys)"

    @property
    def current(self) -> str:
        """The name of the key that signs."""
        return str(self.private["kid"])


def signing_keys_file() -> Path:
    """Where the keys are."""
    return Path(settings.VAR_DIR) / "keys" / "credential_keys.json"


def signing_keys() -> SigningKeys:
    """The keys there are. Raises NoSigningKeys."""
    try:
        rows = json.loads(signing_keys_file().read_text(encoding="ascii"))["keys"]
        public = {row["kid"]: public_part(row) for row in rows}
        private = rows[-1]
    except (OSError, ValueError, LookupError, TypeError) as error:
        raise NoSigningKeys(f"{signing_keys_file()} cannot be read.") from error
    if "d" not in private:
        raise NoSigningKeys(f"{signing_keys_file()} holds no key that could sign.")
    return SigningKeys(private, public)


def published_keys() -> Mapping[str, Mapping[str, Any]]:
    """The public parts by their names; none before the first credential is signed."""
    return signing_keys().public if signing_keys_file().exists() else {}
