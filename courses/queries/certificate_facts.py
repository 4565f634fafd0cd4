"""Freezing what a certificate says, from the standing that it is issued on."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from fractions import Fraction
from unicodedata import normalize

from django.conf import settings
from django.urls import reverse
from django.utils import timezone, translation
from django.utils.translation import gettext as _

from assessments.models import Standard
from assessments.queries.flora import Flora, the_flora
from assessments.queries.sentences.words import stage_word
from assessments.rules.ledger import WindowLedger
from assessments.rules.pairs import PairVerdict
from assessments.rules.standing import Standing
from courses.documents.facts import CertificateFacts, PairEvidence, PlantName, rounded_up
from courses.models import Person, School
from courses.queries.passes import passed_since
from courses.queries.people import the_school
from courses.rules.certification import Certification, Obstacle, last_valid_day
from species.rules.keys import new_key


class NoSchool(Exception):
    """A certificate needs a school that issues it."""


@dataclass(frozen=True)
class Span:
    """First and last day of the evidence."""

    first: date
    last: date


def facts_at_issue(
    person: Person, standard: Standard, decider: Person, found: Certification, number: str, now: datetime
) -> CertificateFacts:
    """The record as it stands now. `found` must be a certification that may be issued."""
    school = the_school()
    if school is None:
        raise NoSchool
    with translation.override(school.language):
        return _facts(person, standard, decider, found, number, now, school)


def _facts(
    person: Person,
    standard: Standard,
    decider: Person,
    found: Certification,
    number: str,
    now: datetime,
    school: School,
) -> CertificateFacts:
    flora, key = the_flora(), new_key()
    span = _span(found.standing)
    passed_on = passed_since([person.user_id], standard, now)[person.user_id] or span.last
    return CertificateFacts(
        number=number,
        key=key,
        check_address=school.address.rstrip("/") + reverse("courses:check", args=[key]),
        school=school.name,
        region=school.region,
        holder=normalize("NFC", person.name),  # a letter and its accent as one, so that they print as one
        standard=standard.name,
        version=standard.version,
        purpose=standard.purpose,
        tolerated_share=_one_in(Fraction(standard.miss_limit)),
        false_pass=_percent(Fraction(standard.miss_alpha)),
        pairs=tuple(_pair(verdict, flora) for verdict in found.standing.pairs),
        first_evidence=span.first,
        last_evidence=span.last,
        issued_on=timezone.localdate(now),
        valid_from=passed_on,
        valid_until=last_valid_day(passed_on, standard.valid_months),
        decider=decider.name,
        exception=_exception(found.exception),
        remarks=tuple(_remarks(found.standing, flora, school)),
        cautions=tuple(cautions()),
        language=school.language,
        ownership=_("This certificate stays the property of %(school)s.") % {"school": school.name},
    )


def _pair(verdict: PairVerdict, flora: Flora) -> PairEvidence:
    window = verdict.approach.window
    recognised = verdict.edible.nearest
    only = verdict.live.not_required if verdict.live.photographs_only else ""
    return PairEvidence(
        key=verdict.key,
        gathered=_name(flora, verdict.pair.gathered),
        mistaken=_name(flora, verdict.pair.mistaken),
        stages=tuple(stage_word(cover.stage) for cover in verdict.stages),
        specimens=window.counts.decided,
        live=window.live,
        occasions=verdict.live.occasions,
        misses=window.counts.misses,
        limit=rounded_up(window.upper_limit, 4),
        recognised=recognised.counts.clean,
        photographs_only=only,
    )


def _name(flora: Flora, key: str) -> PlantName:
    plant = flora.plant(key)
    return PlantName(plant.common_name, plant.name)


def _span(standing: Standing) -> Span:
    """First and last day on which something was shown that counts towards any pair."""
    windows: list[WindowLedger] = [v.approach.window for v in standing.pairs]
    windows += [verdict.edible.nearest for verdict in standing.pairs]
    spans = [window.span for window in windows if window.span]
    return Span(
        timezone.localdate(min(first for first, _last in spans)),
        timezone.localdate(max(last for _first, last in spans)),
    )


def _remarks(standing: Standing, flora: Flora, school: School) -> Iterable[str]:
    yield _("It holds at the stages named, and in the months in which the plants stand in them in %(region)s.") % {
        "region": school.region
    }
    alone = [v for v in standing.pairs if v.live.photographs_only]
    for verdict in {v.pair.mistaken: v for v in alone}.values():
        yield _("%(plant)s: photographs only (%(reason)s).") % {
            "plant": flora.common(verdict.pair.mistaken).capitalize(),
            "reason": verdict.live.not_required,
        }
    if school.is_demo and settings.DRAWINGS_COUNT:
        yield _("Issued by an invented school on drawn plants, to try the program out: it says nothing of anybody.")


def _exception(partial: Iterable[Obstacle]) -> str:
    words = {
        Obstacle.DECIDER_TAUGHT: _("taught the holder"),
        Obstacle.DECIDER_ASSESSED: _("assessed the holder"),
        Obstacle.DECIDER_HAS_CONFLICT: _("declared a conflict of interest about the holder"),
    }
    found = [words[each] for each in partial]
    if not found:
        return ""
    return _("The school has one person who decides, and that person also %(did)s.") % {"did": _(" and ").join(found)}


def cautions() -> list[str]:
    """The cautions that stand on every certificate."""
    return [
        _("This is a record of tests between two dates, at the stages named. It is no licence to gather or to lead."),
        _("Identification must be certain at every step. When in doubt, leave it."),
        _("Local law, the landowner's permission and the protection of species come first."),
        _("If anybody is ill or may have eaten something poisonous, call the emergency number or a poisons service."),
    ]


def _one_in(share: Fraction) -> str:
    """One fifth as "one in 5"."""
    if share.numerator == 1:
        return _("one in %(count)s") % {"count": share.denominator}
    return _percent(share)


def _percent(share: Fraction) -> str:
    return f"{float(share) * 100:g} %"
