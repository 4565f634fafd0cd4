"""The domain words for finding rows of the school."""

from datetime import date, datetime, timedelta
from typing import Self

from django.db.models import Q, QuerySet


class PersonQuerySet(QuerySet):
    """People, by the roles they hold today and by the courses they belong to."""

    def with_role(self, role: str, today: date) -> Self:
        return self.filter(
            Q(roles__until__isnull=True) | Q(roles__until__gte=today),
            roles__role=role,
            roles__since__lte=today,
        ).distinct()

    def attending(self, courses: QuerySet) -> Self:
        """People with a place, or a turn on the waiting list, in one of these courses (a queryset of ids)."""
        return self.filter(enrolments__course__in=courses, enrolments__withdrawn_at__isnull=True)

    def teaching(self, courses: QuerySet) -> Self:
        """Tutors of one of these courses (a queryset of ids)."""
        return self.filter(courses_taught__in=courses)

    def with_a_place_at(self, meeting_id: int) -> Self:
        """People with a place in the course of a meeting."""
        return self.filter(
            enrolments__course__meetings=meeting_id,
            enrolments__withdrawn_at__isnull=True,
            enrolments__waiting=False,
        )

    def expected_at(self, meeting_id: int) -> Self:
        """Whoever would come in vain: people with a place, the leader, the assistants, and who stands in."""
        return self.filter(
            Q(pk__in=self.with_a_place_at(meeting_id).values("pk"))
            | Q(pk__in=self.filter(walks_led=meeting_id).values("pk"))
            | Q(pk__in=self.filter(walks_assisted=meeting_id).values("pk"))
            | Q(pk__in=self.filter(stands_in__meeting=meeting_id, stands_in__taken_back_at__isnull=True).values("pk"))
        )

    def called(self, word: str) -> Self:
        """People with this word in their name or their address."""
        return self.filter(Q(name__icontains=word) | Q(user__email__icontains=word))

    def here(self) -> Self:
        """People who have not left the school."""
        return self.filter(left_on__isnull=True)

    def in_course(self, course_id: int) -> Self:
        return self.filter(enrolments__course_id=course_id, enrolments__withdrawn_at__isnull=True)

    def taught_by(self, person_id: int) -> Self:
        """People with a place in a course that this person teaches."""
        return self.filter(enrolments__course__tutors=person_id, enrolments__withdrawn_at__isnull=True).distinct()


class RoleGrantQuerySet(QuerySet):
    """Roles, as held on a day."""

    def held_on(self, today: date) -> Self:
        return self.filter(since__lte=today).filter(Q(until__isnull=True) | Q(until__gte=today))


class CourseQuerySet(QuerySet):
    """Courses, by time and by whose they are."""

    def running_on(self, today: date) -> Self:
        return self.filter(starts_on__lte=today, ends_on__gte=today)

    def not_over(self, today: date) -> Self:
        """Courses that run today or are still to begin."""
        return self.filter(ends_on__gte=today)

    def taught_by(self, person_id: int) -> Self:
        return self.filter(tutors=person_id)

    def attended_by(self, person_id: int) -> Self:
        return self.filter(enrolments__person_id=person_id, enrolments__withdrawn_at__isnull=True)


class MeetingQuerySet(QuerySet):
    """Meetings, walks among them."""

    def coming(self, now: datetime) -> Self:
        return self.filter(ends_at__gte=now, cancelled_at__isnull=True)

    def over(self, now: datetime) -> Self:
        return self.filter(ends_at__lt=now, cancelled_at__isnull=True)

    def walks(self) -> Self:
        """Meetings outdoors that need a leader who is ready."""
        return self.filter(is_walk=True)

    def without_leader(self) -> Self:
        return self.filter(leader__isnull=True)

    def standing(self) -> Self:
        """Meetings that were not cancelled."""
        return self.filter(cancelled_at__isnull=True)

    def led_or_assisted_by(self, person_id: int) -> Self:
        return self.filter(Q(leader_id=person_id) | Q(assistants=person_id)).distinct()

    def handed_to(self, person_id: int, today: date | None) -> Self:
        """Meetings that somebody stands in at, the day before and on the day itself; none where no day is known."""
        if today is None:
            return self.none()
        return self.filter(
            stand_ins__person=person_id,
            stand_ins__taken_back_at__isnull=True,
            starts_at__date__in=[today, today + timedelta(days=1)],
        ).distinct()

    def of_people_in(self, person_id: int) -> Self:
        """Meetings of the courses in which this person has a place."""
        return self.filter(
            course__enrolments__person_id=person_id,
            course__enrolments__withdrawn_at__isnull=True,
            course__enrolments__waiting=False,
        )

    def of_tutor(self, person_id: int) -> Self:
        """Meetings that this person teaches, leads or assists at."""
        return self.filter(Q(course__tutors=person_id) | Q(leader_id=person_id) | Q(assistants=person_id)).distinct()


class EnrolmentQuerySet(QuerySet):
    """Places in courses."""

    def standing(self) -> Self:
        return self.filter(withdrawn_at__isnull=True)

    def with_a_place(self) -> Self:
        return self.standing().filter(waiting=False)

    def waiting_in_order(self) -> Self:
        return self.standing().filter(waiting=True).order_by("asked_at", "id")


class DecisionAppealQuerySet(QuerySet):
    """Appeals against decisions about certificates."""

    def undecided(self) -> Self:
        return self.filter(ended_at__isnull=True)

    def whole(self) -> Self:
        """With everything that pages say of them."""
        return self.select_related(
            "person__user",
            "application__standard",
            "application__decided_by",
            "event__by",
            "event__certificate__standard",
            "event__certificate__person__user",
            "decided_by",
            "led_to",
        ).prefetch_related("event__certificate__events")


class OfferQuerySet(QuerySet):
    """Places that are kept for somebody on the waiting list."""

    def open(self) -> Self:
        """Neither taken, declined nor lapsed; the hour may be over and the worker not have come by yet."""
        return self.filter(taken_at__isnull=True, declined_at__isnull=True, lapsed_at__isnull=True)


class EnquiryQuerySet(QuerySet):
    """Questions from outside."""

    def unanswered(self) -> Self:
        return self.filter(answered_at__isnull=True, closed_at__isnull=True)


class InvitationQuerySet(QuerySet):
    """Invitations by e-mail."""

    def usable(self, now: datetime) -> Self:
        return self.filter(accepted_at__isnull=True, withdrawn_at__isnull=True, closes_at__gt=now)

    def unanswered(self) -> Self:
        """Neither accepted nor withdrawn; the time to accept may be over."""
        return self.filter(accepted_at__isnull=True, withdrawn_at__isnull=True)


class ApplicationQuerySet(QuerySet):
    """Applications for a certificate."""

    def undecided(self) -> Self:
        return self.filter(decided_at__isnull=True, taken_back_at__isnull=True)


class ErasureRequestQuerySet(QuerySet):
    """Requests to be erased, by what has become of them."""

    def undecided(self) -> Self:
        return self.filter(decided_at__isnull=True, taken_back_at__isnull=True)

    def uncompleted(self) -> Self:
        """Granted, with a name left on certificates whose keeping time runs."""
        return self.filter(granted=True, completed_at__isnull=True)


class CertificateQuerySet(QuerySet):
    """Certificates, by what they are worth on a day."""

    def of(self, person_id: int) -> Self:
        return self.filter(person_id=person_id)

    def not_expired(self, today: date) -> Self:
        return self.filter(valid_until__gte=today)


class CertifiedPairQuerySet(QuerySet):
    """Pairs that certificates were issued over."""

    def left(self) -> Self:
        """Those that no narrowing took away."""
        return self.filter(dropped_by__isnull=True)


class RequirementRecordQuerySet(QuerySet):
    """Proofs that a requirement is met."""

    def valid_on(self, today: date) -> Self:
        return self.filter(valid_from__lte=today).filter(Q(valid_until__isnull=True) | Q(valid_until__gte=today))


class LetterQuerySet(QuerySet):
    """Letters, by what has become of them."""

    def waiting(self) -> Self:
        """Neither sent nor given up."""
        return self.filter(sent_at__isnull=True, given_up_at__isnull=True)

    def due(self, now: datetime, claimed_before: datetime) -> Self:
        """Waiting, to be tried by now, and claimed by no worker that can still be at it; oldest first."""
        free = Q(claimed_at__isnull=True) | Q(claimed_at__lt=claimed_before)
        return self.waiting().filter(free, due_at__lte=now).order_by("queued_at", "id")

    def undelivered(self) -> Self:
        """Given up, newest first."""
        return self.filter(given_up_at__isnull=False).order_by("-given_up_at")
