"""The list of revoked credentials as bits: bit 0 is the left-most bit of byte 0 (Bitstring Status List 1.0). Pure."""

import base64
import gzip
from collections.abc import Iterable

LENGTH = 131_072  # bits; the standard asks for at least as many, so that one place says nothing of its neighbours


def encoded_list(revoked: Iterable[int]) -> str:
    """The list with these bits set: gzip, base64url without padding, and a "u" in front. Same bits, same text."""
    bits = bytearray(LENGTH // 8)
    for index in revoked:
        if not 0 <= index < LENGTH:
            raise ValueError(f"There is no place {index} in the list.")
        bits[index // 8] |= 0x80 >> index % 8
    return "u" + base64.urlsafe_b64encode(gzip.compress(bytes(bits), mtime=0)).rstrip(b"=").decode("ascii")
