"""Erasing somebody: the answer's last day, how long a certificate keeps its name, finding a person in texts. Pure."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any
from unicodedata import normalize

from assessments.rules.windows import months_later

ANSWER_MONTHS = 1
"""General Data Protection Regulation, article 12(3), in the Union's and the United Kingdom's version: "within one
month of receipt of the request"."""
NAME_KEPT_YEARS = 3
"""How long after its last day a certificate keeps its name, so that it can be checked and contested. The school's own
term; common practice, no source."""
FEWEST_DIGITS = 6


def answer_by(asked_on: date) -> date:
    """The last day for an answer: the same day of the next month, or its last day where it has no such day."""
    return months_later(asked_on, ANSWER_MONTHS)


def name_until(valid_until: date) -> date:
    """The last day on which a certificate that is valid until then holds the name of its holder and of its decider."""
    return months_later(valid_until, 12 * NAME_KEPT_YEARS)


@dataclass(frozen=True)
class Traces:
    """What tells of a person in a text: full names, e-mail addresses, telephone numbers.

    A name of one word is not looked for: it may be any word. Nor is a number of fewer than six digits.
    """

    names: tuple[str, ...] = ()
    addresses: tuple[str, ...] = ()
    phones: tuple[str, ...] = ()

    @property
    def pattern(self) -> re.Pattern[str] | None:
        """Finds any of them, whatever the case, the spaces and the form of the accents; None where there is nothing."""
        found = [
            *(each for name in self.names for each in _name_patterns(name)),
            *(rf"(?<![\w.+-]){re.escape(each)}(?![\w-])" for each in self.addresses if each),
            *(each for phone in self.phones for each in _phone_patterns(phone)),
        ]
        return re.compile("|".join(dict.fromkeys(found)), re.IGNORECASE) if found else None


def _name_patterns(name: str) -> Iterable[str]:
    for words in (normalize("NFC", name).split(), normalize("NFD", name).split()):
        if len(words) < 2:
            return
        plain = r"\s+".join(re.escape(word) for word in words)
        turned = rf"{re.escape(words[-1])},\s*" + r"\s+".join(re.escape(word) for word in words[:-1])
        yield from (rf"(?<!\w){each}(?!\w)" for each in (plain, turned))


def _phone_patterns(phone: str) -> Iterable[str]:
    digits = re.findall(r"\d", phone)
    if len(digits) >= FEWEST_DIGITS:
        yield r"(?<!\d)\+?" + r"[\s()./-]*".join(digits) + r"(?!\d)"


def without(value: Any, pattern: re.Pattern[str], code: str) -> Any:
    """A text, or plain values with texts in them, in which a code stands for the person."""
    if isinstance(value, str):
        return pattern.sub(lambda _found: code, value)
    if isinstance(value, list | tuple):
        return [without(each, pattern, code) for each in value]
    if isinstance(value, dict):
        return {without(name, pattern, code): without(each, pattern, code) for name, each in value.items()}
    return value
