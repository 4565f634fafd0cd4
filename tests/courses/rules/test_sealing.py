"""Sealing: opened in its own place alone, and checked against published vectors.

Source of the vectors: the GCM test case of NIST's validation suite as reprinted in McGrew & Viega, "The
Galois/Counter Mode of Operation", test case 14 (256-bit key of zeros); typed from memory and confirmed by the
library's own low-level cipher.
"""

import pytest
from cryptography.hazmat.primitives.ciphers import Cipher, algorithms, modes
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from hypothesis import given
from hypothesis import strategies as st

from courses.rules.sealing import KeyRing, Unreadable, key_id_of, seal, unseal

KEY, OTHER = bytes(range(32)), bytes(32)
RING = KeyRing("aaaaaaaa", {"aaaaaaaa": KEY})
NONCE = bytes(12)
PLACE = "courses.JoiningForm.allergies:0"


def test_the_cipher_is_the_published_one() -> None:
    sealed = AESGCM(bytes(32)).encrypt(bytes(12), bytes(16), b"")
    assert sealed.hex() == "cea7403d4d606b6e074ec5d3baf39d18d0d1c8a799996bf0265b98b5d48ab919"


def test_another_way_to_the_same_cipher_opens_it() -> None:
    sealed = seal("celery", RING, PLACE, NONCE)
    head, body, tag = sealed[:9], sealed[21:-16], sealed[-16:]
    opener = Cipher(algorithms.AES(KEY), modes.GCM(NONCE, tag)).decryptor()
    opener.authenticate_additional_data(head + PLACE.encode())
    assert opener.update(body) + opener.finalize() == b"celery"


@given(text=st.text(max_size=600), nonce=st.binary(min_size=12, max_size=12))
def test_what_is_sealed_comes_back(text, nonce) -> None:
    assert unseal(seal(text, RING, PLACE, nonce), RING, PLACE) == text


@pytest.mark.parametrize("place", ["courses.JoiningForm.mobility:0", "courses.JoiningForm.allergies:1", ""])
def test_in_another_field_or_row_it_does_not_open(place) -> None:
    with pytest.raises(Unreadable):
        unseal(seal("celery", RING, PLACE, NONCE), RING, place)


@given(at=st.integers(0, 42), bit=st.integers(0, 7))
def test_a_changed_bit_anywhere_is_noticed(at, bit) -> None:
    sealed = bytearray(seal("celery", RING, PLACE, NONCE))
    at %= len(sealed)
    sealed[at] ^= 1 << bit
    with pytest.raises(Unreadable):
        unseal(bytes(sealed), RING, PLACE)


def test_an_older_key_still_opens_and_a_lost_one_does_not() -> None:
    sealed = seal("celery", RING, PLACE, NONCE)
    later = KeyRing("bbbbbbbb", {"aaaaaaaa": KEY, "bbbbbbbb": OTHER})
    assert unseal(sealed, later, PLACE) == "celery"
    assert key_id_of(seal("celery", later, PLACE, NONCE)) == "bbbbbbbb"
    with pytest.raises(Unreadable):
        unseal(sealed, KeyRing("bbbbbbbb", {"bbbbbbbb": OTHER}), PLACE)


def test_nothing_stays_nothing_and_keys_are_never_printed() -> None:
    assert seal("", RING, PLACE, NONCE) == b""
    assert unseal(b"", RING, PLACE) == ""
    assert KEY.hex() not in repr(RING)
    assert str(KEY) not in repr(RING)


def test_a_short_nonce_is_refused() -> None:
    with pytest.raises(ValueError, match="12 bytes"):
        seal("x", RING, PLACE, b"short")
