"""Tokens that must be refused, made with another library than the one that signs."""

import base64
import json
from typing import Any

from joserfc import jws
from joserfc.jwk import RSAKey


def packed(said: dict[str, Any]) -> str:
    return base64.urlsafe_b64encode(json.dumps(said).encode()).rstrip(b"=").decode()


def altered(token: str, **changes: Any) -> str:
    """Other words under the old signature."""
    head, body, seal = token.split(".")
    said = json.loads(base64.urlsafe_b64decode(body + "=" * (-len(body) % 4)))
    return f"{head}.{packed({**said, **changes})}.{seal}"


def unsigned(token: str, algorithm: str = "none") -> str:
    """The same words, and no signature."""
    kid = json.loads(base64.urlsafe_b64decode(token.split(".")[0] + "=="))["kid"]
    return f"{packed({'alg': algorithm, 'kid': kid})}.{token.split('.')[1]}."


def signed_with(key: RSAKey, said: dict[str, Any], **header: Any) -> str:
    """Signed by somebody, with whatever header they like."""
    registry = jws.JWSRegistry(algorithms=["RS256", "PS256"], strict_check_header=False)
    return jws.serialize_compact({"alg": "RS256", **header}, json.dumps(said), key, registry=registry)
