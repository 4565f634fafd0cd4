"""The words of sheets about sites: the emergency card, and a review for the pocket."""

from django.utils.formats import date_format
from django.utils.translation import get_language
from django.utils.translation import gettext as _

from courses.documents.sheet import SheetPart, SheetWords
from courses.models import Site, SiteReview
from courses.queries.people import the_school
from courses.queries.sentences.risk import HEADING_WORDS
from courses.rules.risk import HEADINGS
from species.queries.letterhead import cautions


def emergency_sheet(site: Site) -> SheetWords:
    """The card to be carried: numbers first, then the place as it is read out, then who does what."""
    return SheetWords(
        title=_("In an emergency"),
        subtitle=site.locality.name,
        language=get_language() or "en",
        author=_author(),
        parts=(*emergency_parts(site),),
        cautions=_("First aid only. Follow what the emergency service tells you."),
        page_of=_("{page} of {pages}"),
        format="A6",
    )


def emergency_parts(site: Site | None) -> list[SheetPart]:
    """The parts of the card, for sheets that carry it along."""
    school = the_school()
    calls = [_("Call %s.") % school.emergency_number] if school else []
    if school and school.poisons_number:
        calls.append(_("Poisons service: %s.") % school.poisons_number)
    parts = [SheetPart(_("Call"), tuple(calls), alarm=True)]
    if site is not None:
        parts.append(SheetPart(_("Say where"), tuple(_where(site))))
        if site.who_calls:
            parts.append(SheetPart(_("Who calls"), (site.who_calls,)))
    parts.append(
        SheetPart(
            _("If a plant may have been eaten"),
            (
                _("Call at once; do not wait for signs. Do not make anybody vomit. Rinse the mouth and spit out."),
                _("Keep the plant, the left-overs and a picture. Write down what was eaten and when."),
                _("Find everyone who ate of it."),
                _("Sap on skin: wash with soap and water, keep out of sunlight."),
                _("Sap in the eye: rinse with clean water for 15 minutes, and get help."),
            ),
        )
    )
    return parts


def _where(site: Site) -> list[str]:
    named = [
        (_("Gate: %s"), site.access_gate),
        (_("Road: %s"), site.nearest_road),
        (_("Hospital: %s"), site.hospital),
        (_("Telephone signal: %s"), site.phone_signal),
    ]
    place = site.locality
    lines = [site.emergency_place or _("No exact place is written down: find out before you set out.")]
    if place.latitude is not None and place.longitude is not None:
        lines.append(_("Position: %(lat)s, %(lon)s") % {"lat": place.latitude, "lon": place.longitude})
    return lines + [words % value for words, value in named if value]


def review_sheet(review: SiteReview) -> SheetWords:
    """A review, heading by heading; what is empty says so."""
    parts = [
        SheetPart(str(HEADING_WORDS[name]), (review.headings.get(name) or _("Nothing written down."),))
        for name in HEADINGS
    ]
    decision = [f"{review.get_decision_display()}. {review.reason}".strip()]
    if review.residual_risk:
        decision.insert(0, _("What remains: %s") % review.residual_risk)
    by = {"name": review.reviewed_by.name, "day": date_format(review.reviewed_on, "DATE_FORMAT")}
    again = date_format(review.review_again_by, "DATE_FORMAT")
    decision += [_("Reviewed by %(name)s, %(day)s.") % by, _("Review again by %s.") % again]
    return SheetWords(
        title=_("Recce and risks: %s") % review.site.locality.name,
        subtitle=_dates(review),
        language=get_language() or "en",
        author=_author(),
        parts=(*parts, SheetPart(_("Decision"), tuple(decision), alarm=review.decision == "cancel")),
        cautions=" ".join(cautions()),
        page_of=_("{page} of {pages}"),
        format="A5",
    )


def _dates(review: SiteReview) -> str:
    walked = _("Route walked on %s") % date_format(review.walked_on, "DATE_FORMAT") if review.walked_on else ""
    return " · ".join(filter(None, (walked, review.meeting.title if review.meeting else "")))


def _author() -> str:
    school = the_school()
    return school.name if school else ""
