"""Erasing somebody: the answer's last day, how long a certificate keeps its name, finding a person in texts. Pure."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from html import escape
from typing import Any
from unicodedata import normalize
from urllib.parse import quote

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
        """Finds any of them, whatever the case, the spaces, the form of the accents and of the apostrophes, in plain
        texts and in HTML; a number with and without what is dialled in front of it from abroad. None where there is
        nothing."""
        found = [
            *(each for name in self.names for each in _name_patterns(name)),
            *(
                rf"(?<![\w.+-]){_in_any_writing(form)}(?![\w-]|\.\w)"
                for each in self.addresses
                for form in (each, quote(each, safe="@"))
                if each
            ),
            *(each for phone in self.phones for each in _phone_patterns(phone)),
        ]
        return re.compile("|".join(dict.fromkeys(found)), re.IGNORECASE) if found else None


_APOSTROPHES = r"(?:['\u2019\u02bc`\u00b4]|&#x27;|&#39;|&rsquo;)"
_HYPHENS = r"[-\u2010\u2011]"


def _in_any_writing(text: str) -> str:
    """A pattern for a text, in which an apostrophe and a hyphen may be any of theirs, and HTML may stand escaped."""
    written = {"'": _APOSTROPHES, "\u2019": _APOSTROPHES, "-": _HYPHENS, "\u2010": _HYPHENS, "\u2011": _HYPHENS}
    plain = {each: f"(?:{re.escape(each)}|{re.escape(escape(each))})" for each in '&<>"'}
    return "".join((written | plain).get(each, re.escape(each)) for each in text)


def _name_patterns(name: str) -> Iterable[str]:
    for words in (normalize("NFC", name).split(), normalize("NFD", name).split()):
        if len(words) < 2:
            return
        said = [_in_any_writing(word) for word in words]
        plain, turned = r"\s+".join(said), rf"{said[-1]},\s*" + r"\s+".join(said[:-1])
        yield from (rf"(?<!\w){each}(?!\w)" for each in (plain, turned))


_BETWEEN = r"[\s()./\u2010-\u2013-]*"
_COUNTRY_DIGITS = (1, 2, 3)  # of a country code: ITU-T E.164, from memory


def _phone_patterns(phone: str) -> Iterable[str]:
    digits = re.findall(r"\d", phone)
    if len(digits) < FEWEST_DIGITS:
        return
    yield rf"(?<!\d)\+?{_BETWEEN.join(digits)}(?!\d)"
    told = "".join(digits)
    if phone.strip().startswith("+") or told.startswith("00"):
        told = told.removeprefix("00")
        for length in _COUNTRY_DIGITS:
            if len(told) - length >= FEWEST_DIGITS:
                yield _at_home(told[length:], told[:length])
    elif told.startswith("0") and len(told) > FEWEST_DIGITS:
        yield _at_home(told[1:], r"\d{1,3}")


def _at_home(number: str, country: str) -> str:
    """A number that begins with a nought at home, and with the code of its country, or both, from abroad."""
    return rf"(?<!\d)(?:(?:\+|00){_BETWEEN}{country}{_BETWEEN}0?|0){_BETWEEN}{_BETWEEN.join(number)}(?!\d)"


def without(value: Any, pattern: re.Pattern[str], code: str) -> Any:
    """A text, or plain values with texts in them, in which a code stands for the person."""
    if isinstance(value, str):
        return pattern.sub(lambda _found: code, value)
    if isinstance(value, list | tuple):
        return [without(each, pattern, code) for each in value]
    if isinstance(value, dict):
        return {without(name, pattern, code): without(each, pattern, code) for name, each in value.items()}
    return value
