"""One page for the tutor's telephone: everything of a meeting that is needed on its day."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime

from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from courses.models import Enrolment, Incident, Meeting, Person, SiteReview, StandIn
from courses.rules.notes import Notes
from courses.rules.permissions import Standing

from .incidents import near_misses_for
from .meetings import meeting_when
from .plan import ModulePlan, plan_of
from .register import Register, register_of
from .site_plants import Met, dangers_at
from .sites import permission_on

KIT = (
    _("First-aid kit, water, hand wash"),
    _("This pack and the emergency card; phone and power"),
    _("A hand lens for every two people, gloves, a knife"),
    _("A bag for each species, labels, a pencil"),
    _("Spare clothes; whistle and torch where signal or daylight may end"),
)


@dataclass(frozen=True)
class Told:
    """What one participant told: notes None where there is no form. `agreed`: kinds of consent that stand."""

    person: Person
    notes: Notes | None
    agreed: frozenset[str]

    @property
    def is_urgent(self) -> bool:
        """Something that has to be seen at a glance before anybody tastes or touches."""
        return self.notes is not None and bool(
            self.notes.allergies or self.notes.pregnancy or self.notes.cannot_be_read
        )

    @property
    def may_taste(self) -> bool:
        return "tasting" in self.agreed


@dataclass(frozen=True)
class DayPage:
    """The day. `told` is None for whoever may not read it."""

    meeting: Meeting
    when: str
    register: Register
    plan: tuple[ModulePlan, ...]
    dangers: tuple[Met, ...]
    permission: Standing | None
    review: SiteReview | None
    near_misses: tuple[Incident, ...]
    stand_ins: tuple[StandIn, ...]
    told: tuple[Told, ...] | None

    @property
    def kit(self) -> list[str]:
        """What is carried (common practice of the trade, no source)."""
        return [str(each) for each in KIT]

    @property
    def not_eating(self) -> tuple[Told, ...]:
        """Who must not eat something, or tastes nothing, those with allergies first."""
        return tuple(sorted((each for each in self.told or () if each.is_urgent), key=lambda each: each.person.name))

    @property
    def tastes_nothing(self) -> tuple[Person, ...]:
        return tuple(each.person for each in self.told or () if not each.may_taste)


def placed_in(meeting: Meeting) -> list[Enrolment]:
    """Everybody with a place in the course of a meeting, with their consents; two queries, none for a walk alone."""
    if meeting.course is None:
        return []
    rows = meeting.course.enrolments.with_a_place().select_related("person").prefetch_related("consents")
    return list(rows.order_by("person__name"))


def day_page(meeting: Meeting, placed: Collection[Enrolment], notes: dict[int, Notes] | None, now: datetime) -> DayPage:
    """All that the page shows, in a constant number of queries.

    `notes` by place, None where they are not for the reader.
    """
    day, site = timezone.localdate(meeting.starts_at), meeting.site
    plan = tuple(plan_of(meeting))
    pairs = [each.pair for module in plan for each in module.pairs]
    planned = {pk for pair in pairs for pk in (pair.gathered_id, pair.mistaken_id)}
    planned |= {each.species.pk for module in plan for each in module.species}
    return DayPage(
        meeting=meeting,
        when=meeting_when(meeting, now),
        register=register_of(meeting, now),
        plan=plan,
        dangers=tuple(dangers_at(site, day, planned)),
        permission=permission_on(site.permissions.all(), day) if site else None,
        review=site.reviews.order_by("-reviewed_on", "-pk").first() if site else None,
        near_misses=tuple(near_misses_for(site, [pair.pk for pair in pairs])),
        stand_ins=tuple(meeting.stand_ins.filter(taken_back_at__isnull=True).select_related("person", "named_by")),
        told=None if notes is None else tuple(_told(place, notes) for place in placed),
    )


def _told(place: Enrolment, notes: dict[int, Notes]) -> Told:
    agreed = frozenset(each.kind for each in place.consents.all() if each.withdrawn_at is None)
    return Told(place.person, notes.get(place.pk), agreed)
