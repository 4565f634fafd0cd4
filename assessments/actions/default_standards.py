"""The two standards that a school begins with."""

from collections.abc import Collection

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from assessments.models import Standard
from assessments.rules.standard import PARTICIPANT, WALK_LEADER
from species.models import Pair

from .standards import Exceptions, make_standard

COW_PARSLEY = "anthriscus-sylvestris"


def make_default_standards(pairs: Collection[Pair], by: User | None) -> tuple[Standard, Standard]:
    """Drafts of *participant* and *walk leader* over these pairs, with the default numbers and stages."""
    with transaction.atomic():
        return _participant(pairs, by), _walk_leader(pairs, by)


def _participant(pairs: Collection[Pair], by: User | None) -> Standard:
    by_name = {COW_PARSLEY: _("Participants do not gather plants of this family.")}
    return make_standard(
        "participant",
        _("Participant"),
        PARTICIPANT,
        pairs,
        by=by,
        purpose=_(
            "The holder decided on many specimens of every dangerous plant below. Somebody who would "
            "gather one in five of them or more has at most one chance in ten of passing, however often "
            "they try within the period. It is a record of tests at a time and place, no licence, and says "
            "nothing about plants that are not listed."
        ),
        reasons=_(
            "The pairs are those that can do serious harm here and that are really confused. One in five, "
            "with one chance in ten of a false pass, is what a careful person can show within one course."
        ),
        exceptions=Exceptions(recognise_only=by_name),
    )


def _walk_leader(pairs: Collection[Pair], by: User | None) -> Standard:
    return make_standard(
        "walk-leader",
        _("Walk leader"),
        WALK_LEADER,
        pairs,
        by=by,
        leads_walks=True,
        purpose=_(
            "As far as the plants below go, the holder may answer for others on a walk of this school. "
            "Somebody who would gather one in ten of the dangerous ones or more has at most one chance in "
            "twenty of passing, however often they try within the period. It is a record of tests at a "
            "time and place, no licence, and says nothing about plants that are not listed."
        ),
        reasons=_(
            "Others follow a leader without looking themselves, so less is tolerated and more must be shown "
            "alive. It is a path over one or two seasons; what was shown as a participant counts."
        ),
    )
