"""What the evidence of certificates carries as it stands today: computed, and stored nowhere.

A certificate rests on the period in which it was issued, whatever period runs now: beginning a renewal takes nothing
from it. Pairs that it was narrowed by no longer matter.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime

from assessments.models import Window
from assessments.queries.evidence import answers_of
from assessments.queries.flora import the_flora
from assessments.queries.standards import facts_of, standards_with_parts
from assessments.rules.evidence import AnswerFacts
from assessments.rules.names import NameBook
from assessments.rules.pairs import PairVerdict
from assessments.rules.standard import StandardFacts, WindowFacts
from assessments.rules.standing import misses_since, standing
from courses.documents.facts import CertificateFacts
from courses.models import Certificate
from courses.queries.credentials import pairs_left

Windows = Mapping[int, list[WindowFacts]]


@dataclass(frozen=True)
class Carried:
    """One certificate: the verdicts of today on the pairs that it still stands for, and whether one of their
    dangerous species was missed since the issue."""

    pairs: tuple[PairVerdict, ...]
    missed: bool

    @property
    def holds(self) -> bool:
        return bool(self.pairs) and not self.missed and all(verdict.passed for verdict in self.pairs)

    @property
    def stages(self) -> dict[str, frozenset[str]]:
        """By the key of each pair the stages in which its dangerous plant was shown well enough."""
        return {
            verdict.key: frozenset(cover.stage for cover in verdict.stages if cover.covered) for verdict in self.pairs
        }


def carried(certificates: Collection[Certificate], now: datetime) -> dict[int, Carried]:
    """By its id what each of these certificates is carried by; they come with events and people at hand.

    A constant number of queries.
    """
    if not certificates:
        return {}
    answers = answers_of([each.person.user_id for each in certificates])
    facts = facts_of(standards_with_parts().filter(pk__in={each.standard_id for each in certificates}))
    book, windows = the_flora().book, _own_windows(certificates, now)
    return {
        each.pk: _carried(each, facts[each.standard_id], answers[each.person.user_id], windows, book)
        for each in certificates
    }


def _carried(
    certificate: Certificate, facts: StandardFacts, answers: list[AnswerFacts], windows: Windows, book: NameBook
) -> Carried:
    frozen = CertificateFacts.from_json(certificate.facts)
    left = {pair.key for pair in pairs_left(certificate, frozen)}
    verdicts = standing(facts, answers, windows[certificate.pk], book).pairs
    kept = tuple(verdict for verdict in verdicts if verdict.key in left)
    species = {verdict.pair.mistaken for verdict in kept}
    missed = any(each.specimen.species in species for each in misses_since(facts, answers, certificate.issued_at))
    return Carried(kept, missed)


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
