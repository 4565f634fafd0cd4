"""The words of a certificate as it stands after what became of it: the paper never shows a pair that was taken away."""

from dataclasses import replace

from django.utils import timezone, translation
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from courses.documents.facts import CertificateFacts
from courses.documents.words import CertificateWords
from courses.models import Certificate, CertificateEvent
from courses.queries.certificate_words import certificate_words
from courses.queries.credentials import pairs_left, told_from


def words_now(certificate: Certificate) -> CertificateWords:
    """The words for the paper: the pairs left, and what a narrowing took away; one query, for the events."""
    facts = CertificateFacts.from_json(certificate.facts)
    left = pairs_left(certificate, facts)
    gone = [pair for pair in facts.pairs if pair not in left]
    if not gone:
        return certificate_words(facts)
    narrowed = [each for each in certificate.events.all() if each.kind == CertificateEvent.Kind.NARROWED]
    with translation.override(facts.language):
        remark = _("Narrowed on %(day)s. It no longer stands for: %(pairs)s.") % {
            "day": date_format(timezone.localdate(narrowed[-1].happened_at), "DATE_FORMAT"),
            "pairs": "; ".join(told_from(pair.gathered.common, pair.mistaken.common) for pair in gone),
        }
    return certificate_words(replace(facts, pairs=left, remarks=(remark, *facts.remarks)))
