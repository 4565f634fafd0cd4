"""The words of a certificate as it stands after what became of it: nothing shows a pair that was taken away."""

from dataclasses import dataclass, replace
from datetime import date

from django.utils import timezone, translation
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from courses.documents.facts import CertificateFacts, PairEvidence
from courses.documents.words import CertificateWords
from courses.models import Certificate, CertificateEvent
from courses.queries.certificate_words import certificate_words
from courses.queries.credentials import pairs_left, told_from


@dataclass(frozen=True)
class Narrowing:
    """What was taken from a certificate: the last day on which something was, and all the pairs."""

    on: date
    gone: tuple[PairEvidence, ...]

    def sentence(self, *, naming: bool) -> str:
        """What happened, with the pairs or without."""
        day = date_format(self.on, "DATE_FORMAT")
        if not naming:
            return _("Narrowed on %(day)s. It no longer stands for every pair of its standard.") % {"day": day}
        return _("Narrowed on %(day)s. It no longer stands for: %(pairs)s.") % {
            "day": day,
            "pairs": "; ".join(told_from(pair.gathered.common, pair.mistaken.common) for pair in self.gone),
        }


def narrowing_of(certificate: Certificate, facts: CertificateFacts) -> Narrowing | None:
    """What narrowing took from a certificate, or None; one query, for the events, unless they are there."""
    left = pairs_left(certificate, facts)
    gone = tuple(pair for pair in facts.pairs if pair not in left)
    if not gone:
        return None
    narrowed = [each for each in certificate.events.all() if each.kind == CertificateEvent.Kind.NARROWED]
    return Narrowing(timezone.localdate(narrowed[-1].happened_at), gone)


def narrowed_sentence(certificate: Certificate) -> str:
    """What was taken from it, for whoever may read all of it; empty if nothing was."""
    narrowing = narrowing_of(certificate, CertificateFacts.from_json(certificate.facts))
    return narrowing.sentence(naming=True) if narrowing else ""


def words_now(certificate: Certificate) -> CertificateWords:
    """The words for page and paper: the pairs left, and what a narrowing took away."""
    facts = CertificateFacts.from_json(certificate.facts)
    narrowing = narrowing_of(certificate, facts)
    if narrowing is None:
        return certificate_words(facts)
    left = tuple(pair for pair in facts.pairs if pair not in narrowing.gone)
    with translation.override(facts.language):
        remark = narrowing.sentence(naming=True)
        standard = _(
            "passed the pairs below, which are not every dangerous pair of the standard %(standard)s, "
            "version %(version)s"
        ) % {"standard": facts.standard, "version": facts.version}
    return replace(certificate_words(replace(facts, pairs=left, remarks=(remark, *facts.remarks))), standard=standard)
