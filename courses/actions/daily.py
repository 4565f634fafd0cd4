"""What has to be done every day: each step by itself, in its own transaction, safe to run twice or days late."""

import logging
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from assessments.actions.handing_in import settle_overdue
from courses.actions.enquiries import erase_enquiries
from courses.actions.enrolment import lapse_offers
from courses.actions.erasure import complete_erasures
from courses.actions.health import erase_health_notes
from courses.actions.notices import write_notices
from courses.actions.posting import post_letters
from courses.actions.reminders import remind
from courses.actions.reviews import notify_reviews
from courses.actions.tidying import erase_old_records

_log = logging.getLogger(__name__)

STEPS: tuple[tuple[str, Callable[[datetime], int]], ...] = (
    ("sittings closed or settled", settle_overdue),
    ("offers of places lapsed", lapse_offers),
    ("health notes erased", erase_health_notes),
    ("enquiries erased", erase_enquiries),
    ("old records erased", erase_old_records),
    ("erasures completed", complete_erasures),
    ("reviews told of", notify_reviews),
    ("reminders written", remind),
    ("notices worded", write_notices),
    ("letters sent", lambda now: post_letters(now).sent),
)
"""The steps in their order: what closes comes before what tells of it, what tells before what posts."""


@dataclass(frozen=True)
class StepDone:
    """One step: how many it was about, or what went wrong."""

    name: str
    count: int = 0
    trouble: str = ""


def run_daily(now: datetime) -> list[StepDone]:
    """Run every step. One that fails is written to the log and stops none of the others."""
    done = []
    for name, step in STEPS:
        try:
            done.append(StepDone(name, step(now)))
        except Exception as error:  # the next step must run whatever this one met
            _log.exception("The daily step failed: %s", name)
            done.append(StepDone(name, trouble=f"{type(error).__name__}: {error}"))
    return done
