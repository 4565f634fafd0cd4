"""Sealing short texts so that only this school can read them, each in its own place. Pure.

AES-256 in Galois/Counter Mode (NIST SP 800-38D) with a 96-bit nonce. Bound into every seal, as associated data,
is the place that the text belongs to: a sealed text that is moved to another field or another row opens
nowhere. In front stands the id of the key, so that a key can be replaced while older texts are still read.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives.ciphers.aead import AESGCM

VERSION = b"\x01"
KEY_BYTES, NONCE_BYTES, ID_BYTES = 32, 12, 8


class Unreadable(Exception):
    """The sealed text was changed or moved, or its key is gone."""


@dataclass(frozen=True)
class KeyRing:
    """Keys by their id of eight letters; `current` is the one that seals. Never printed."""

    current: str
    keys: Mapping[str, bytes]

    def __repr__(self) -> str:
        return f"KeyRing(current={self.current!r}, {len(self.keys)} keys)"


def seal(text: str, ring: KeyRing, place: str, nonce: bytes) -> bytes:
    """A text sealed into its place; empty for an empty text. `nonce`: 12 random bytes, never used twice."""
    if not text:
        return b""
    if len(nonce) != NONCE_BYTES:
        raise ValueError("A nonce has 12 bytes.")
    head = VERSION + ring.current.encode("ascii")
    sealed = AESGCM(ring.keys[ring.current]).encrypt(nonce, text.encode(), head + place.encode())
    return head + nonce + sealed


def unseal(sealed: bytes, ring: KeyRing, place: str) -> str:
    """The text, if it was sealed into this place with a key of the ring; empty for nothing. Raises Unreadable."""
    if not sealed:
        return ""
    head, rest = sealed[: 1 + ID_BYTES], sealed[1 + ID_BYTES :]
    key = ring.keys.get(key_id_of(sealed))
    if head[:1] != VERSION or key is None or len(rest) <= NONCE_BYTES:
        raise Unreadable
    try:
        return AESGCM(key).decrypt(rest[:NONCE_BYTES], rest[NONCE_BYTES:], head + place.encode()).decode()
    except InvalidTag:
        raise Unreadable from None


def key_id_of(sealed: bytes) -> str:
    """The id of the key that sealed this; empty for nothing."""
    return bytes(sealed[1 : 1 + ID_BYTES]).decode("ascii", "replace")
