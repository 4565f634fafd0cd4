"""Where somebody stands on a requirement for leading, in words."""

from dataclasses import dataclass

from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from courses.rules.readiness import Readiness
from courses.rules.requirements import DAYS_IN_A_MONTH, Check, Reason, Requirement

NAMES = {
    Requirement.CERTIFICATE: gettext_lazy("Leader's certificate"),
    Requirement.FIRST_AID: gettext_lazy("First aid"),
    Requirement.INSURANCE: gettext_lazy("Liability insurance"),
    Requirement.ASSISTED_WALKS: gettext_lazy("Walks assisted"),
    Requirement.OBSERVED_WALK: gettext_lazy("Led under observation"),
    Requirement.CONDUCT: gettext_lazy("Code of conduct"),
    Requirement.INDUCTION: gettext_lazy("Induction at the site"),
    Requirement.SAFEGUARDING: gettext_lazy("Safeguarding"),
    Requirement.LEAVE_TO_LEAD: gettext_lazy("Leave to lead alone"),
}
REMEDIES = {
    Requirement.CERTIFICATE: gettext_lazy("Pass every dangerous pair at the leader standard, then apply."),
    Requirement.FIRST_AID: gettext_lazy("Show an organiser a ticket that is valid."),
    Requirement.INSURANCE: gettext_lazy("Show an organiser a policy that is valid."),
    Requirement.ASSISTED_WALKS: gettext_lazy("Assist at more walks."),
    Requirement.OBSERVED_WALK: gettext_lazy("Lead a walk while a leader watches, and have it confirmed."),
    Requirement.CONDUCT: gettext_lazy("Read and sign the code of conduct."),
    Requirement.INDUCTION: gettext_lazy("Walk the site with somebody who knows it."),
    Requirement.SAFEGUARDING: gettext_lazy(
        "Show an organiser that it is in order; the law where you are decides what."
    ),
    Requirement.LEAVE_TO_LEAD: gettext_lazy("An organiser gives it, for a region and a season."),
}


@dataclass(frozen=True)
class CheckLine:
    """One requirement as pages show it. `status` is one of met, part (lapses soon) and unmet."""

    requirement: str
    name: str
    status: str
    sentence: str
    remedy: str


def requirement_name(requirement: Requirement) -> str:
    """What a requirement is called."""
    return str(NAMES[requirement])


def check_lines(found: Readiness) -> list[CheckLine]:
    """Every requirement of one person, in words."""
    return [check_line(check) for check in found.checks]


def check_line(check: Check) -> CheckLine:
    """One requirement in words."""
    status = "unmet" if not check.met else "part" if check.reason is Reason.LAPSES_SOON else "met"
    remedy = "" if check.met else str(REMEDIES[check.requirement])
    return CheckLine(check.requirement.value, requirement_name(check.requirement), status, _sentence(check), remedy)


def _sentence(check: Check) -> str:
    said = _stands(check)
    if check.requirement is Requirement.CERTIFICATE and check.done < check.needed:
        return said + _(", for %(left)s of its %(named)s pairs") % {"left": check.done, "named": check.needed}
    return said


def _stands(check: Check) -> str:
    on = date_format(check.on, "DATE_FORMAT") if check.on else ""
    if check.requirement in (Requirement.ASSISTED_WALKS, Requirement.OBSERVED_WALK):
        words = (
            _("%(done)s of %(needed)s%(within)s")
            if check.done <= check.needed
            else ngettext("%(done)s%(within)s; one is asked", "%(done)s%(within)s; %(needed)s are asked", check.needed)
        )
        figures = words % {"done": check.done, "needed": check.needed, "within": _within(check.within_days)}
        return _("%(figures)s, until %(on)s") % {"figures": figures, "on": on} if on else figures
    if check.reason is Reason.NEVER_SHOWN:
        return _("never shown") if check.requirement is not Requirement.CERTIFICATE else _("none yet")
    sentences = {
        Reason.MET: _("until %(on)s") % {"on": on} if on else _("without end"),
        Reason.LAPSES_SOON: _("until %(on)s, soon") % {"on": on},
        Reason.LAPSED: _("lapsed on %(on)s") % {"on": on},
        Reason.SUSPENDED: _("suspended"),
        Reason.WITHDRAWN: _("withdrawn"),
    }
    return sentences[check.reason]


def _within(days: int | None) -> str:
    """How far back walks count, in years where these are whole, else in months; empty where it does not matter."""
    if not days:
        return ""
    months = round(days / DAYS_IN_A_MONTH)
    if months % 12:
        return ngettext(" in the last month", " in the last %(months)s months", months) % {"months": months}
    return ngettext(" in the last year", " in the last %(years)s years", months // 12) % {"years": months // 12}
