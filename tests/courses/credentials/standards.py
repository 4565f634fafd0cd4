"""The published contexts and schemas, read from a folder that the environment names: they are not ours to copy."""

import json
from typing import Any

from pyld import jsonld

from tests.species.darwin.standards import standards_file

CONTEXTS = {
    "https://www.w3.org/ns/credentials/v2": "vc/credentials-v2.json",
    "https://purl.imsglobal.org/spec/ob/v3p0/context-3.0.3.json": "ob3/context-3.0.3.json",
    "https://purl.imsglobal.org/spec/ob/v3p0/extensions.json": "ob3/extensions.json",
}


def standard_json(path: str) -> dict[str, Any]:
    return json.loads(standards_file(path).read_text(encoding="utf-8"))


def load_context(address: str, _options: object = None) -> dict[str, Any]:
    """A context from the folder; any other address is refused, so nothing is ever fetched."""
    if address not in CONTEXTS:
        raise ValueError(f"would have to fetch {address}")
    return {
        "contentType": "application/ld+json",
        "contextUrl": None,
        "documentUrl": address,
        "document": standard_json(CONTEXTS[address]),
    }


def values_in(tree: Any) -> list[str]:
    """Every text that is a value in a tree, none that is a name."""
    if isinstance(tree, dict):
        return [text for name, each in tree.items() if name != "@context" for text in values_in(each)]
    if isinstance(tree, list):
        return [text for each in tree for text in values_in(each)]
    return [tree] if isinstance(tree, str) else []


def expanded(credential: dict[str, Any]) -> list[Any]:
    return jsonld.expand(credential, {"documentLoader": load_context})
