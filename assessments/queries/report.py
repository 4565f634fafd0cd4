"""The technical report of a version of a standard, written anew from the school's own records."""

from datetime import datetime

from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import get_language
from django.utils.translation import gettext as _

from assessments.documents.report_words import Report
from assessments.models import Standard

from .planning import version_name
from .report_agreement import agreement, comparability, fairness
from .report_conduct import about_itself, administration, rights, scores
from .report_content import content, purpose, questions
from .report_cut import cut, precision
from .report_material import material_for
from .report_over_time import change_of_rule, retesting


def report_of(standard: Standard, now: datetime, school: str) -> Report:
    """The report as of this moment, in the language in use; `school` is the name printed on it."""
    found = material_for(standard, now)
    before = (
        purpose(found),
        content(found),
        questions(found),
        cut(found),
        precision(found),
        agreement(found),
        comparability(found),
        retesting(found),
        fairness(found),
        administration(found),
        scores(found),
        rights(found),
    )
    last = change_of_rule(found)
    day = date_format(timezone.localtime(now), "DATE_FORMAT")
    since = found.standard.in_use_since
    dated = (
        _("As of %(day)s. This version is in use since %(since)s.")
        % {"day": day, "since": date_format(since, "DATE_FORMAT")}
        if since
        else _("As of %(day)s. This version is a draft and not in use.") % {"day": day}
    )
    return Report(
        language=get_language() or "en",
        title=_("Technical report of a standard"),
        school=school,
        standard=version_name(found.standard),
        dated=dated,
        how_to_read=_(
            "n is from how many a figure was counted; after it stands the name of the query that counted them."
        ),
        chapters=(*before, about_itself((*before, last)), last),
        cautions=(
            _(
                "A record of tests at a time and place; no licence. Local law, and the landowner's permission, come "
                "first."
            ),
            _("Identification must be certain at every step, whoever holds a certificate."),
        ),
    )
