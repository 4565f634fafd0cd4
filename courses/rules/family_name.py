"""Whether somebody who checks a certificate knows the family name of its holder."""

from unicodedata import combining, normalize


def folded(name: str) -> str:
    """A name without case, accents and hyphens: what people type who read it off a paper."""
    plain = "".join(letter for letter in normalize("NFKD", name.casefold()) if not combining(letter))
    return " ".join(plain.replace("-", " ").replace("’", "'").split())


def is_family_name(said: str, holder: str) -> bool:
    """Whether `said` is the end of the holder's name, in whole words: one last word, several, or the whole name."""
    words, all_words = folded(said).split(), folded(holder).split()
    return bool(words) and all_words[-len(words) :] == words
