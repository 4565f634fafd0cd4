"""Why somebody cannot confirm answers to living plants, in words."""

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from assessments.queries.competence import StationsBeyond


def why_beyond(found: StationsBeyond) -> list[str]:
    """The sentences for somebody who would record answers. No number is told to who has not named the plant."""
    sentences = []
    if found.known:
        first = ngettext(
            "Station %(numbers)s is a dangerous plant over which you held no current certificate on that day.",
            "Stations %(numbers)s are dangerous plants over which you held no current certificate on that day.",
            len(found.known),
        ) % {"numbers": ", ".join(map(str, found.known))}
        sentences.append(f"{first} {_what_to_do()}")
    if found.untold:
        first = _("Among these stations are dangerous plants over which you held no current certificate on that day.")
        sentences.append(f"{first} {_what_to_do()}")
    return sentences


def _what_to_do() -> str:
    return _("Answers there are recorded by somebody who held one, or who is on record as a founding assessor.")
