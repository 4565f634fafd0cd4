"""Open credentials: what one says, which were revoked, and whether one that somebody shows us is genuine."""

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from uuid import NAMESPACE_URL, uuid5

from django.db.models import Max, QuerySet
from django.urls import reverse
from django.utils import timezone, translation
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from assessments.models import Standard
from assessments.queries.standards import standards_with_parts
from courses.documents.credential import AchievementWords, Edition, Issuer, PairShown
from courses.documents.facts import CertificateFacts, PairEvidence
from courses.models import Certificate, CertificateEvent
from courses.queries.people import the_school

RETIRED = "retired_index"  # in the facts of an event: the place whose bit it set


class NoIssuer(Exception):
    """There is no school yet that could vouch for anything."""


def the_issuer() -> Issuer:
    """The school as credentials name it. Raises NoIssuer."""
    school = the_school()
    if school is None:
        raise NoIssuer
    return Issuer(school.address.rstrip("/"), school.name)


def pairs_left(certificate: Certificate, facts: CertificateFacts) -> tuple[PairEvidence, ...]:
    """The pairs that a certificate still stands for: those it names, less what it was narrowed by."""
    left = {pair.key for pair in facts.pairs}
    for event in certificate.events.all():
        if event.kind == CertificateEvent.Kind.NARROWED:
            left &= set(event.facts.get("pairs", left))
    return tuple(pair for pair in facts.pairs if pair.key in left)


def achievement_of(certificate: Certificate, issuer: Issuer) -> AchievementWords:
    """What this certificate says was achieved, with the evidence on each pair, in the language of its issue."""
    facts = CertificateFacts.from_json(certificate.facts)
    with translation.override(facts.language):
        shown = [
            PairShown(each.key, told_from(each.gathered.common, each.mistaken.common), evidence_in_short(each))
            for each in pairs_left(certificate, facts)
        ]
        return _achievement(certificate.standard, issuer, shown, facts.language)


def achievement_asked(standard: Standard, issuer: Issuer) -> AchievementWords:
    """What a version of a standard asks, as its public address answers. Needs `standards_with_parts`."""
    school = the_school()
    language = school.language if school else "en"
    with translation.override(language):
        rows = [row.pair for row in standard.pairs.all() if row.pair.is_dangerous]
        shown = [PairShown(each.key, told_from(each.gathered.common_name, each.mistaken.common_name)) for each in rows]
        return _achievement(standard, issuer, shown, language)


def standards_achieved() -> QuerySet[Standard]:
    """The versions that somebody can have achieved: those that are, or were, in use."""
    return standards_with_parts().put_to_use()


def _achievement(standard: Standard, issuer: Issuer, shown: list[PairShown], language: str) -> AchievementWords:
    return AchievementWords(
        key=standard.key,
        version=standard.version,
        name=_("%(standard)s, version %(version)s") % {"standard": standard.name, "version": standard.version},
        description=_("Tells each edible plant of the standard from the dangerous plant that it is mistaken for."),
        criteria=_(
            "Every dangerous pair passed under version %(version)s of the standard %(standard)s, on specimens "
            "that others confirmed."
        )
        % {"standard": standard.name, "version": standard.version},
        language=language,
        page=issuer.address + reverse("assessments:standard", args=[standard.key, standard.version]),
        pairs=tuple(shown),
    )


def told_from(gathered: str, mistaken: str) -> str:
    """A pair by name."""
    told = _("%(gathered)s told from %(mistaken)s") % {"gathered": gathered, "mistaken": mistaken}
    return told[:1].upper() + told[1:]


def evidence_in_short(pair: PairEvidence) -> str:
    """Stages and counts of specimens; nothing about what was missed."""
    photographs = ngettext("%(count)s specimen by photograph", "%(count)s specimens by photograph", pair.by_photo) % {
        "count": pair.by_photo
    }
    live = ngettext("%(live)s live at %(count)s meeting", "%(live)s live at %(count)s meetings", pair.occasions) % {
        "live": pair.live,
        "count": pair.occasions,
    }
    counts = _("%(photographs)s, no living ones") if pair.photographs_only else "%(photographs)s, %(live)s"
    said = counts % {"photographs": photographs, "live": live}
    return f"{', '.join(pair.stages)}: {said}" if pair.stages else said


def edition_of(certificate: Certificate, index: int, salt: str) -> Edition:
    """One signing of a certificate, with the place in the status list and the salt drawn for it."""
    facts = CertificateFacts.from_json(certificate.facts)
    with translation.override(facts.language):
        specimens = sum(pair.specimens for pair in pairs_left(certificate, facts))
        evidence = ngettext(
            "%(count)s specimen decided on between %(first)s and %(last)s, confirmed by people other than the holder.",
            "%(count)s specimens decided on between %(first)s and %(last)s, confirmed by people other than the holder.",
            specimens,
        ) % {"count": specimens, "first": facts.first_evidence, "last": facts.last_evidence}
        name = _("Certificate of identification: %(standard)s") % {"standard": facts.standard}
    return Edition(
        id=f"{facts.check_address}{index}/",
        subject=f"urn:uuid:{uuid5(NAMESPACE_URL, facts.check_address)}",
        number=certificate.number,
        index=index,
        email=certificate.person.user.email,
        salt=salt,
        name=name,
        evidence=evidence,
        starts=_midnight(certificate.valid_from),
        ends=_midnight(certificate.valid_until + timedelta(days=1)),
        awarded=first_award(certificate),
        ownership=facts.ownership,
    )


def first_award(certificate: Certificate) -> datetime:
    """When the first certificate in a row of renewals was issued."""
    found, seen = certificate, {certificate.pk}
    while found.application and found.application.renews and found.application.renews_id not in seen:
        found = found.application.renews
        seen.add(found.pk)
    return found.issued_at


def _midnight(day: date) -> datetime:
    return timezone.make_aware(datetime.combine(day, time.min))


@dataclass(frozen=True)
class Revoked:
    """The places whose bits are set, for ever, and when the last one was."""

    places: frozenset[int]
    changed: datetime | None


def revoked_editions() -> Revoked:
    """Every edition that was ever revoked: the events keep the places."""
    events = CertificateEvent.objects.filter(facts__has_key=RETIRED)
    changed = events.aggregate(last=Max("happened_at"))["last"]
    return Revoked(frozenset(events.values_list(f"facts__{RETIRED}", flat=True)), changed)


def places_taken() -> frozenset[int]:
    """The places in the status list that were ever given to an edition."""
    held = Certificate.objects.filter(status_index__isnull=False).values_list("status_index", flat=True)
    return revoked_editions().places | {place for place in held if place is not None}
