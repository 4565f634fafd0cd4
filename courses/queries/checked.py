"""What anybody may learn of a certificate: what it is worth now, and beside that only what its holder allowed."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db.models import prefetch_related_objects

from courses.documents.facts import CertificateFacts
from courses.documents.words import PairWords
from courses.models import Certificate
from courses.queries.certificate_now import Narrowing, narrowing_of
from courses.queries.certificate_words import certificate_words
from courses.queries.certificates import CertificateLine, certificate_lines
from courses.rules.certificate_number import as_printed
from courses.rules.certification import State
from courses.rules.family_name import is_family_name

SAYS_SOMETHING = frozenset({State.CURRENT, State.EXPIRED})


@dataclass(frozen=True)
class Checked:
    """A certificate as the check page shows it. `holder` is empty, and `pairs` too, where they are not shown.

    `is_nameless`: the holder was erased, and the time is over for which a certificate keeps its name.
    """

    line: CertificateLine
    facts: CertificateFacts
    holder: str
    pairs_heading: str
    pairs: tuple[PairWords, ...]
    renewed_by: str
    as_of: datetime
    is_nameless: bool = False
    narrowing: Narrowing | None = None

    @property
    def says_something(self) -> bool:
        """Whether it is or was worth anything: what is suspended or withdrawn supports no claim."""
        return self.line.state in SAYS_SOMETHING

    @property
    def narrowed(self) -> str:
        """That it no longer stands for every pair, in a sentence that names pairs only where the holder shows them."""
        if self.narrowing is None or not self.says_something:
            return ""
        return self.narrowing.sentence(naming=bool(self.pairs))

    def as_json(self) -> dict[str, Any]:
        """The same for programs: days as ISO 8601 text, the moment in UTC; what is not shown is left out."""
        certificate = self.line.certificate
        said: dict[str, Any] = {
            "number": certificate.number,
            "status": self.line.status,
            "as_of": self.as_of.isoformat(timespec="seconds"),
            "school": self.facts.school,
            "standard": self.facts.standard,
            "version": self.facts.version,
            "valid_from": certificate.valid_from.isoformat(),
            "valid_until": certificate.valid_until.isoformat(),
        }
        if self.holder:
            said["holder"] = self.holder
        if self.pairs:
            said["pairs"] = [
                {"gathered": each.gathered.scientific, "mistaken": each.mistaken.scientific, "stages": each.stages}
                for each in self.pairs
            ]
        narrowed_on = self.narrowing.on.isoformat() if self.narrowed and self.narrowing else ""
        also = {"narrowed_on": narrowed_on, "exception": self.facts.exception, "renewed_by": self.renewed_by}
        return said | {name: value for name, value in also.items() if value}


def checked_by_key(key: str, now: datetime) -> Checked | None:
    """The certificate behind the long random word that its QR code carries."""
    found = _rows().filter(key=key).first()
    return checked(found, now) if found else None


def checked_by_number(number: str, family_name: str, now: datetime) -> Checked | None:
    """The certificate with this number, for somebody who knows the family name as well.

    A wrong number and a wrong name take the same steps: one row is asked for and one name compared. A certificate
    without a name answers whatever name is given, since nobody is left to protect; the page says that it has none.
    """
    # what happened to it is asked for afterwards: that question is put only where there is a certificate
    found = _rows().prefetch_related(None).filter(number=as_printed(number)).first()
    known = is_family_name(family_name, found.facts["holder"] if found else "Nobody Whatever")
    return checked(found, now) if found and (known or _is_nameless(found)) else None


def _is_nameless(certificate: Certificate) -> bool:
    holder = certificate.person
    return holder.erased_on is not None and certificate.facts["holder"] == holder.name


def _rows() -> Any:
    return Certificate.objects.select_related("person__user", "standard").prefetch_related("events")


def checked(certificate: Certificate, now: datetime) -> Checked:
    """What the check page shows of a certificate."""
    prefetch_related_objects([certificate], "events")
    line = certificate_lines([certificate], now)[0]
    facts = CertificateFacts.from_json(certificate.facts)
    words, narrowing = certificate_words(facts), narrowing_of(certificate, facts)
    gone = narrowing.gone if narrowing else ()
    shown = certificate.pairs_are_public and line.state in SAYS_SOMETHING
    renewals = [each.facts.get("renewed_by", "") for each in certificate.events.all() if each.kind == "renewed"]
    return Checked(
        line=line,
        facts=facts,
        holder=facts.holder if certificate.name_is_public and not _is_nameless(certificate) else "",
        pairs_heading=words.pairs_heading,
        pairs=tuple(said for pair, said in zip(facts.pairs, words.pairs, strict=True) if shown and pair not in gone),
        renewed_by=renewals[-1] if renewals else "",
        as_of=now,
        is_nameless=_is_nameless(certificate),
        narrowing=narrowing,
    )
