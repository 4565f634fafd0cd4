"""Why a step of a certificate is not taken, in words."""

from django.utils.translation import gettext as _

from courses.rules.life import RENEWAL_DAYS, StepRefusal


def step_sentence(refusal: StepRefusal) -> str:
    """What is wrong, and what to do."""
    return {
        StepRefusal.IS_WITHDRAWN: _("It is withdrawn, and that is for good: nothing more can happen to it."),
        StepRefusal.IS_EXPIRED: _("It has run out: it can be renewed or withdrawn, and nothing else."),
        StepRefusal.IS_SUSPENDED: _("It is suspended: lift that first, or withdraw the certificate."),
        StepRefusal.IS_NOT_SUSPENDED: _("It is not suspended, so there is nothing to lift."),
        StepRefusal.WAS_RENEWED: _("It was renewed already: look at the newer certificate."),
        StepRefusal.TOO_EARLY_TO_RENEW: _("It is too early: a renewal can be asked for in the last %(days)s days.")
        % {"days": RENEWAL_DAYS},
        StepRefusal.OTHER_STANDARD: _("It is under another standard: apply without renewing."),
        StepRefusal.NO_REASON: _("Say why: the holder has a right to the reason."),
        StepRefusal.MAY_NOT: _("Only organisers of the school take this step: ask one of them."),
        StepRefusal.IS_THE_HOLDER: _("This is your own certificate: ask another organiser."),
        StepRefusal.HAD_A_HAND: _(
            "You taught or assessed the holder, or declared a conflict of interest: ask another organiser. "
            "Suspending is open to you, and at once."
        ),
        StepRefusal.LEAVES_NOTHING: _("No pair would be left: leave one unticked, or withdraw it."),
        StepRefusal.TAKES_NOTHING: _("Every pair would be left: tick those that it loses."),
        StepRefusal.ADDS_PAIRS: _("It does not stand for one of these pairs: narrowing cannot add any."),
    }[refusal]
