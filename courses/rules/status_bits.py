"""The list of revoked credentials as bits: bit 0 is the left-most bit of byte 0 (Bitstring Status List 1.0). Pure."""

import base64
import gzip
from collections.abc import Iterable

LENGTH = 131_072  # bits; the standard asks for at least as many, so that one place says nothing of its neighbours
LARGEST = LENGTH // 8 * 64  # bytes that somebody else's list may unpack to


class NotAList(Exception):
    """The text is no list of bits."""


def encoded_list(revoked: Iterable[int]) -> str:
    """The list with these bits set: gzip, base64url without padding, and a "u" in front. Same bits, same text."""
    bits = bytearray(LENGTH // 8)
    for index in revoked:
        if not 0 <= index < LENGTH:
            raise ValueError(f"There is no place {index} in the list.")
        bits[index // 8] |= 0x80 >> index % 8
    return "u" + base64.urlsafe_b64encode(gzip.compress(bytes(bits), mtime=0)).rstrip(b"=").decode("ascii")


def is_revoked(encoded: str, index: int) -> bool:
    """Whether the bit at this place is set. Raises NotAList; IndexError where the list is too short."""
    try:
        if encoded[:1] != "u":
            raise ValueError
        packed = base64.urlsafe_b64decode(encoded[1:] + "=" * (-(len(encoded) - 1) % 4))
        bits = gzip.decompress(packed)
    except (ValueError, OSError, EOFError) as error:
        raise NotAList from error
    if len(bits) > LARGEST:
        raise NotAList
    if index < 0:
        raise IndexError(index)
    return bool(bits[index // 8] & 0x80 >> index % 8)
