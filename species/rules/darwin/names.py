"""Scientific names with and without author, both ways, and keys made of them."""

import re

from species.rules.names import normalise
from species.rules.scientific import Rank, parsed_name

RANK_WORDS = {
    Rank.GENUS: "genus",
    Rank.SECTION: "section",
    Rank.AGGREGATE: "aggregate",
    Rank.SPECIES: "species",
}
_BELOW = {
    "subsp.": "subspecies", "nothosubsp.": "nothosubspecies", "var.": "variety", "nothovar.": "nothovariety",
    "subvar.": "subvariety", "f.": "form", "subf.": "subform",
}  # fmt: skip


def full_name(name: str, author: str) -> str:
    """A name as Darwin Core wants it: with its author."""
    return f"{name} {author}".strip()


def name_and_author(full: str, authorship: str) -> tuple[str, str]:
    """A full name taken apart. A name in which no author stands is kept letter by letter."""
    text, author = " ".join(full.split()), " ".join(authorship.split())
    if author and text.endswith(f" {author}") and not parsed_name(text[: -len(author)]).author:
        return text[: -len(author)].strip(), author
    found = parsed_name(text)
    if not found.genus or not found.author:
        return text, author
    return found.text, author or found.author


def rank_word(name: str) -> str:
    """The rank that a name reaches, in small letters."""
    found = parsed_name(name)
    if found.rank is not Rank.BELOW_SPECIES:
        return RANK_WORDS[found.rank]
    return next((_BELOW[word] for word in reversed(found.text.split()) if word in _BELOW), "infraspecific name")


def key_of(name: str) -> str:
    """A key in the school's way: rumex-acetosa."""
    return re.sub(r"[^a-z0-9]+", "-", normalise(name)).strip("-")[:80]
