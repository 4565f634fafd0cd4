"""Signing a credential as a VC-JWT, and finding out whether a token is genuine. Pure.

RS256 with keys of 3072 bits (RFC 7515, 7518). The algorithm is fixed here and never read from a token, and a key
that a token brings along is never looked at.
"""

import json
from collections.abc import Mapping
from datetime import datetime
from functools import lru_cache
from typing import Any

from jwcrypto.common import JWException, base64url_decode
from jwcrypto.jwk import JWK
from jwcrypto.jws import JWS

ALGORITHM = "RS256"
KEY_BITS = 3072
LARGEST = 100_000  # letters of a token; ours have some thousand
HEADER = frozenset({"alg", "kid", "typ"})


class NotGenuine(Exception):
    """The token is none of ours, or not as we signed it; `reason` is one of the words below."""

    UNREADABLE, HEADER, ALGORITHM = "unreadable", "header", "algorithm"
    UNKNOWN_KEY, SIGNATURE, CLAIMS = "unknown key", "signature", "claims"

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason


def new_key() -> dict[str, Any]:
    """A private key as a JWK, named by its thumbprint (RFC 7638)."""
    key = JWK.generate(kty="RSA", size=KEY_BITS)
    return {**key.export_private(as_dict=True), "kid": key.thumbprint(), "alg": ALGORITHM, "use": "sig"}


def public_part(key: Mapping[str, Any]) -> dict[str, Any]:
    """What of a key may be shown to anybody."""
    return {name: key[name] for name in ("kty", "n", "e", "kid", "alg", "use")}


def signed(payload: Mapping[str, Any], key: Mapping[str, Any], key_address: str) -> str:
    """The compact token. `key`: a private JWK; `key_address`: where its public part can be read."""
    header = {"alg": ALGORITHM, "kid": key_address, "typ": "JWT"}
    token = JWS(json.dumps(payload, ensure_ascii=False, separators=(",", ":")).encode())
    token.add_signature(_to_sign_with(json.dumps(dict(key))), None, json.dumps(header))
    return str(token.serialize(compact=True))


@lru_cache(maxsize=2)
def _to_sign_with(key: str) -> JWK:
    """The key as the library holds it. Reading one in takes fifty times as long as signing: its primes are tried."""
    return JWK.from_json(key)


def key_address_in(token: str) -> str:
    """The address of the key that the token says it was signed with. Raises NotGenuine for a header not ours."""
    if len(token) > LARGEST or token.count(".") != 2:
        raise NotGenuine(NotGenuine.UNREADABLE)
    header = _json(token.split(".")[0])
    if header.get("alg") != ALGORITHM:
        raise NotGenuine(NotGenuine.ALGORITHM)
    if set(header) - HEADER or header.get("typ", "JWT") != "JWT" or not isinstance(header.get("kid"), str):
        raise NotGenuine(NotGenuine.HEADER)
    return str(header["kid"])


def genuine(token: str, keys: Mapping[str, Mapping[str, Any]]) -> dict[str, Any]:
    """What the token says, if it was signed with one of our keys (public JWKs by address). Raises NotGenuine."""
    address = key_address_in(token)
    if address not in keys:
        raise NotGenuine(NotGenuine.UNKNOWN_KEY)
    found = JWS()
    found.allowed_algs = [ALGORITHM]
    try:
        found.deserialize(token)
        found.verify(JWK(**public_part(keys[address])), alg=ALGORITHM)
    except (JWException, ValueError) as error:
        raise NotGenuine(NotGenuine.SIGNATURE) from error
    said = _json(token.split(".")[1])
    if not claims_agree(said):
        raise NotGenuine(NotGenuine.CLAIMS)
    return said


def claims_of(credential: Mapping[str, Any]) -> dict[str, Any]:
    """The claims that repeat a credential: who says it, of whom, which one, from when and until when (seconds)."""
    issuer = credential["issuer"]
    claims = {
        "iss": issuer if isinstance(issuer, str) else issuer["id"],
        "jti": credential["id"],
        "sub": credential["credentialSubject"]["id"],
        "nbf": seconds(credential["validFrom"]),
    }
    return {**claims, "exp": seconds(credential["validUntil"])} if "validUntil" in credential else claims


def claims_agree(said: Mapping[str, Any]) -> bool:
    """Whether the claims say the same as the credential around them, and nothing is wrapped in `vc`."""
    try:
        wanted = claims_of(said)
    except (KeyError, TypeError, ValueError):
        return False
    return "vc" not in said and all(said.get(name) == value for name, value in wanted.items())


def seconds(stamp: str) -> int:
    """Seconds since 1970 of a time with its zone."""
    moment = datetime.fromisoformat(stamp)
    if moment.tzinfo is None:
        raise ValueError("A time without its zone.")
    return int(moment.timestamp())


def _json(part: str) -> dict[str, Any]:
    try:
        found = json.loads(base64url_decode(part))
    except (ValueError, TypeError) as error:
        raise NotGenuine(NotGenuine.UNREADABLE) from error
    if not isinstance(found, dict):
        raise NotGenuine(NotGenuine.UNREADABLE)
    return found
