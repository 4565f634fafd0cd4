"""Wording a frozen record once, for the page and for the paper."""

from django.utils import translation
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from courses.documents.facts import CertificateFacts, PairEvidence, rounded_up
from courses.documents.words import CertificateWords, PairWords


def certificate_words(facts: CertificateFacts) -> CertificateWords:
    """The words of a certificate, in the language in which it was issued."""
    with translation.override(facts.language):
        return CertificateWords(
            language=facts.language,
            title=_("Certificate of identification"),
            school=facts.school,
            number=_("No. %(number)s") % {"number": facts.number},
            intro=_("This records that"),
            holder=facts.holder,
            standard=_("passed every dangerous pair of the standard %(standard)s, version %(version)s")
            % {"standard": facts.standard, "version": facts.version},
            statement=_statement(facts),
            pairs_heading=_("Told apart"),
            pairs=tuple(_pair(pair) for pair in facts.pairs),
            lines=tuple(_lines(facts)),
            exception=facts.exception,
            ownership=facts.ownership,
            remarks=facts.remarks,
            cautions_heading=_("Mind"),
            cautions=facts.cautions,
            check_sentence=_("Whether this is real and still current is shown at"),
            check_address=facts.check_address,
            qr_alt=_("QR code to the check page of certificate %(number)s") % {"number": facts.number},
        )


def _statement(facts: CertificateFacts) -> str:
    return _(
        "Between %(first)s and %(last)s the holder decided on the specimens counted below. A person who would "
        "gather %(share)s or more of the specimens of any one dangerous species has at most a %(chance)s chance of "
        "this certificate, however often they try within its period."
    ) % {
        "first": date_format(facts.first_evidence, "DATE_FORMAT"),
        "last": date_format(facts.last_evidence, "DATE_FORMAT"),
        "share": facts.tolerated_share,
        "chance": facts.false_pass,
    }


def _pair(pair: PairEvidence) -> PairWords:
    return PairWords(pair.gathered, pair.mistaken, _("told from"), ", ".join(pair.stages), evidence_sentence(pair))


def evidence_sentence(pair: PairEvidence) -> str:
    """The evidence of one pair in words and figures."""
    live = ngettext("%(live)s live at %(count)s meeting", "%(live)s live at %(count)s meetings", pair.occasions) % {
        "live": pair.live,
        "count": pair.occasions,
    }
    counted = _("photographs only") if pair.photographs_only else f"{_by_photo(pair)}, {live}"
    decided = ngettext("%(count)s specimen (%(how)s)", "%(count)s specimens (%(how)s)", pair.specimens) % {
        "count": pair.specimens,
        "how": counted,
    }
    missed = (
        _("none would have been gathered")
        if pair.misses == 0
        else ngettext("%(misses)s would have been gathered", "%(misses)s would have been gathered", pair.misses)
        % {"misses": pair.misses}
    )
    limit = _("at most %(limit)s %% missed") % {"limit": f"{rounded_up(pair.limit * 100, 1):.1f}"}
    right = ngettext(
        "%(count)s of the gathered plant recognised", "%(count)s of the gathered plant recognised", pair.recognised
    ) % {"count": pair.recognised}
    return f"{decided}: {missed}; {limit}; {right}."


def _by_photo(pair: PairEvidence) -> str:
    return _("%(count)s by photograph") % {"count": pair.by_photo}


def _lines(facts: CertificateFacts) -> list[tuple[str, str]]:
    day = "DATE_FORMAT"
    lines = [
        (
            _("First and last evidence"),
            f"{date_format(facts.first_evidence, day)} – {date_format(facts.last_evidence, day)}",
        ),
        (_("Valid from"), date_format(facts.valid_from, day)),
        (_("Valid until"), date_format(facts.valid_until, day)),
        (_("Issued on"), date_format(facts.issued_on, day)),
        (_("Decided by"), facts.decider),
    ]
    if facts.region:
        lines.append((_("Region"), facts.region))
    return lines
