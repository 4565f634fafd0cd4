"""Which certificates are under review: computed from the evidence as it stands today, stored nowhere."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from datetime import datetime

from assessments.models import Window
from assessments.queries.evidence import answers_of
from assessments.queries.flora import the_flora
from assessments.queries.standards import facts_of, standards_with_parts
from assessments.rules.evidence import AnswerFacts
from assessments.rules.names import NameBook
from assessments.rules.standard import StandardFacts, WindowFacts
from assessments.rules.standing import misses_since, standing
from courses.documents.facts import CertificateFacts
from courses.models import Certificate
from courses.queries.credentials import pairs_left

Windows = Mapping[int, list[WindowFacts]]


def under_review(certificates: Collection[Certificate], now: datetime) -> set[int]:
    """Ids of the certificates whose own evidence no longer passes, or with a dangerous miss after their issue.

    A certificate rests on the period in which it was issued, whatever period runs now. Pairs that it was narrowed
    by no longer matter. `certificates` come with their events and people; a constant number of queries.
    """
    if not certificates:
        return set()
    answers = answers_of([each.person.user_id for each in certificates])
    facts = facts_of(standards_with_parts().filter(pk__in={each.standard_id for each in certificates}))
    book, windows = the_flora().book, _own_windows(certificates, now)
    return {
        each.pk
        for each in certificates
        if not _carries(each, facts[each.standard_id], answers[each.person.user_id], windows, book)
    }


def _carries(
    certificate: Certificate, facts: StandardFacts, answers: list[AnswerFacts], windows: Windows, book: NameBook
) -> bool:
    frozen = CertificateFacts.from_json(certificate.facts)
    gone = {pair.key for pair in frozen.pairs} - {pair.key for pair in pairs_left(certificate, frozen)}
    verdicts = standing(facts, answers, windows[certificate.pk], book).pairs
    kept = [verdict for verdict in verdicts if verdict.key not in gone]
    species = {verdict.pair.mistaken for verdict in kept}
    missed = any(each.specimen.species in species for each in misses_since(facts, answers, certificate.issued_at))
    return bool(kept) and not missed and all(verdict.passed for verdict in kept)


def _own_windows(certificates: Iterable[Certificate], now: datetime) -> Windows:
    """By certificate the windows of the period in which it was issued."""
    by_user = defaultdict(list)
    users = {each.person.user_id for each in certificates}
    rows = Window.objects.filter(period__person_id__in=users, opened_at__lte=now).select_related("period")
    for row in rows.order_by("period__number", "number"):
        by_user[row.period.person_id].append(row)
    return {
        each.pk: [
            WindowFacts(row.number, row.opened_at, row.period.ends_at)
            for row in by_user[each.person.user_id]
            if row.period.started_at <= each.issued_at < row.period.ends_at
        ]
        for each in certificates
    }
