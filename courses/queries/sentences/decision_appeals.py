"""Appeals against decisions about certificates, in words."""

from django.utils.formats import date_format
from django.utils.translation import gettext as _

from courses.queries.decision_appeals import AppealLine, DecisionTaken
from courses.rules.decision_appeals import Bar, Decision, Follows, Outcome, Refusal


def title_of(taken: DecisionTaken) -> str:
    """What was decided, in a few words."""
    if taken.certificate is None:
        return _("Application declined: %(standard)s") % {"standard": taken.standard.name}
    words = {
        Decision.SUSPENDED: _("Certificate %(number)s suspended"),
        Decision.NARROWED: _("Certificate %(number)s narrowed"),
        Decision.WITHDRAWN: _("Certificate %(number)s withdrawn"),
    }
    return words[taken.decision] % {"number": taken.certificate.number}


def refusal_sentence(taken: DecisionTaken, refusal: Refusal) -> str:
    """Why this decision cannot be appealed, and what to do."""
    if refusal is Refusal.ALREADY:
        return _("You have appealed this decision already: there is one appeal for each.")
    day = date_format(taken.until, "DATE_FORMAT")
    return _("The last day to appeal this was %(day)s. You can still write to the school.") % {"day": day}


def bar_sentence(bar: Bar) -> str:
    """Why somebody may not decide, said to themselves."""
    return {
        Bar.APPEALED: _("It is your own appeal."),
        Bar.MAY_NOT_DECIDE: _("Only organisers decide appeals against decisions."),
        Bar.DECIDED_IT: _("You took the decision that it speaks against."),
        Bar.TIED: _("You taught or assessed this person, or declared a conflict of interest."),
    }[bar]


def exception_sentence(line: AppealLine) -> str:
    """What was set aside when it was decided; empty if nothing was."""
    words = {
        Bar.DECIDED_IT.value: _("took the decision that was appealed"),
        Bar.TIED.value: _("taught or assessed the person, or declared a conflict of interest"),
    }
    said = [words[each] for each in line.appeal.exception.split() if each in words]
    if not said:
        return ""
    what = _(" and ").join(said)
    return _("Whoever decided %(what)s: nobody else in the school could decide.") % {"what": what}


def follows_sentence(taken: DecisionTaken) -> str:
    """What upholding the appeal would do now."""
    return {
        Follows.LIFTED: _("The suspension is lifted at once."),
        Follows.APPLICATION: _(
            "The application stands before the organisers again; whether a certificate is issued is decided as always, "
            "on the evidence. What was narrowed or withdrawn stays so: a new certificate would take its place."
        ),
        Follows.NOTHING: _("It is recorded that the decision was wrong. It is over already, so nothing else changes."),
    }[taken.follows]


def outcome_sentence(line: AppealLine) -> str:
    """How it ended and what followed; empty while it is open."""
    if not line.appeal.outcome:
        return ""
    if line.appeal.outcome == Outcome.DISMISSED:
        return _("Dismissed: the decision stands.")
    if line.appeal.outcome == Outcome.TAKEN_BACK:
        return _("Taken back.")
    if line.appeal.led_to_id:
        return _("Upheld: the application stands before the organisers again.")
    return _("Upheld: the decision was wrong.")
