"""What a notice says, once for letters and pages: a subject, sentences, and where to read on."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.urls import reverse
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from assessments.models import Notice
from assessments.queries.sentences.appeals import (
    DECISION_SENTENCES,
    NOTICE_SENTENCES,
    appeal_notice_lines,
    notice_lines,
)


@dataclass(frozen=True)
class NoticeWords:
    """A notice in words. `path` is an address of this site."""

    subject: str
    lines: tuple[str, ...]
    path: str


def notice_words(notice: Notice) -> NoticeWords:
    """The words of a notice. KeyError for a kind that nobody has words for."""
    kind, facts = notice.kind, notice.facts
    if kind in DECISION_SENTENCES or kind == "appeal_decided":
        lines = appeal_notice_lines(kind, facts)
        return NoticeWords(lines[0], tuple(lines), reverse("assessments:one_appeal", args=[facts["appeal"]]))
    if kind in NOTICE_SENTENCES:
        subject = _("Something was corrected in a test of yours")
        return NoticeWords(subject, tuple(notice_lines(kind, facts)), reverse("assessments:my_standing"))
    return _WORDED[kind](facts)


def is_worded(kind: str) -> bool:
    """Whether there are words for a kind."""
    return kind in _WORDED or kind in NOTICE_SENTENCES or kind in DECISION_SENTENCES or kind == "appeal_decided"


def _moment(text: str) -> str:
    return date_format(timezone.localtime(datetime.fromisoformat(text)), "DATETIME_FORMAT")


def _sit(facts: Mapping[str, Any]) -> str:
    return reverse("assessments:sit", args=[facts["paper"]])


def _paper_set(facts: Mapping[str, Any]) -> NoticeWords:
    lines = (
        _("“%(title)s” is there for you to sit. It opens on %(day)s.")
        % {"title": facts["title"], "day": _moment(facts["opens_at"])},
        _("Sit it alone and in your own time. “Leave it: I cannot tell” is always a safe answer."),
    )
    return NoticeWords(_("A test for you: %(title)s") % {"title": facts["title"]}, lines, _sit(facts))


def _paper_changed(facts: Mapping[str, Any]) -> NoticeWords:
    lines = (
        _("“%(title)s” was changed before it opens. It now opens on %(day)s.")
        % {"title": facts["title"], "day": _moment(facts["opens_at"])},
        _("You have nothing to do: your place in it stays."),
    )
    return NoticeWords(_("Changed: %(title)s") % {"title": facts["title"]}, lines, _sit(facts))


def _paper_withdrawn(facts: Mapping[str, Any]) -> NoticeWords:
    lines = (
        _("“%(title)s” will not be held. Nothing of it counts for you or against you.") % {"title": facts["title"]},
        _("The reason: %(why)s") % {"why": facts["why"]},
    )
    return NoticeWords(_("Withdrawn: %(title)s") % {"title": facts["title"]}, lines, reverse("assessments:papers"))


def _closed_itself(facts: Mapping[str, Any]) -> NoticeWords:
    lines = (
        _("“%(title)s” reached its limit and closed by itself. What you had saved was handed in for you.")
        % {"title": facts["title"]},
    )
    return NoticeWords(_("Closed: %(title)s") % {"title": facts["title"]}, lines, _sit(facts))


def _annulled(facts: Mapping[str, Any]) -> NoticeWords:
    lines = (
        _("Your sitting of “%(title)s” was annulled, so nothing in it counts for you or against you.")
        % {"title": facts["title"]},
        _("The reason: %(why)s") % {"why": facts["why"]},
    )
    return NoticeWords(_("Annulled: %(title)s") % {"title": facts["title"]}, lines, _sit(facts))


def _window_opened(facts: Mapping[str, Any]) -> NoticeWords:
    lines = (
        _("A fresh count was opened for you (number %(number)s), after: %(what)s.")
        % {"number": facts["number"], "what": facts["retraining"]},
        _("What you answer from now on enters it. It asks for a little more than the count before."),
    )
    return NoticeWords(_("A fresh count is open for you"), lines, reverse("assessments:my_standing"))


_WORDED: Mapping[str, Callable[[Mapping[str, Any]], NoticeWords]] = {
    "paper_set": _paper_set,
    "paper_changed": _paper_changed,
    "paper_withdrawn": _paper_withdrawn,
    "sitting_closed_itself": _closed_itself,
    "sitting_annulled": _annulled,
    "window_opened": _window_opened,
}
