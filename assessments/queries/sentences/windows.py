"""Why a window of evidence is not opened, in words."""

from django.utils.translation import gettext_lazy as _

from assessments.rules.windows import Refusal

WINDOW_REFUSALS = {
    Refusal.NO_WINDOW_LEFT: _(
        "All three windows of this period are open, and there is no fourth: go on in these, or wait for the "
        "next period."
    ),
    Refusal.PERIOD_OVER: _(
        "The period is over: the next test that counts opens a new one, with its first window, by itself."
    ),
    Refusal.RETRAINING_NOT_RECORDED: _(
        "Say what was taught again, by whom and when: without that no further window is opened."
    ),
    Refusal.BEFORE_THE_LAST: _("The last window was opened after this moment: look at the date."),
}


def window_refusal(refusal: Refusal) -> str:
    """Why a window of evidence is not opened."""
    return str(WINDOW_REFUSALS[refusal])
