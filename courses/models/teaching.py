"""Courses and their meetings, places in courses, and the register."""

from django.core.validators import MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from assessments.models import Paper, SpotTest, Standard
from courses.querysets import CourseQuerySet, EnrolmentQuerySet, MeetingQuerySet
from species.models import Module
from species.rules.keys import new_key

from .people import Person
from .sites import Site


class Course(models.Model):
    """Six to twelve weeks outdoors, towards a standard."""

    key = models.SlugField(_("key"), max_length=60, unique=True)
    title = models.CharField(_("title"), max_length=120)
    summary = models.TextField(_("what is taught"), blank=True)
    standard = models.ForeignKey(Standard, models.PROTECT, related_name="courses", verbose_name=_("standard"))
    starts_on = models.DateField(_("first day"))
    ends_on = models.DateField(_("last day"))
    capacity = models.PositiveSmallIntegerField(_("places"), validators=[MinValueValidator(1)])
    tutors = models.ManyToManyField(Person, related_name="courses_taught", verbose_name=_("tutors"))
    papers = models.ManyToManyField(Paper, related_name="courses", blank=True, verbose_name=_("papers"))
    bring = models.TextField(_("what to bring"), blank=True)
    effort = models.TextField(_("effort: distance, ground, weather"), blank=True)
    price = models.CharField(_("price, in words"), max_length=200, blank=True)
    who_may_come = models.TextField(_("who may come"), blank=True)
    is_public = models.BooleanField(_("shown to everybody"), default=False)
    place_rule = models.CharField(_("rule for places, if not first come"), max_length=200, blank=True)
    skipped_days = models.JSONField(_("days without a meeting"), default=list, blank=True)
    copied_from = models.ForeignKey(
        "self", models.SET_NULL, null=True, blank=True, related_name="copies", verbose_name=_("copied from")
    )

    objects = CourseQuerySet.as_manager()

    class Meta:
        verbose_name = _("course")
        verbose_name_plural = _("courses")
        ordering = ["-starts_on", "title"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(ends_on__gte=models.F("starts_on")), name="a_course_ends_after_it_starts"
            )
        ]

    def __str__(self) -> str:
        return self.title


class Meeting(models.Model):
    """One date, of a course or alone. A walk is a meeting outdoors, which needs a leader who is ready."""

    key = models.CharField(_("key"), max_length=32, unique=True, default=new_key, editable=False)
    course = models.ForeignKey(
        Course, models.PROTECT, null=True, blank=True, related_name="meetings", verbose_name=_("course")
    )
    title = models.CharField(_("title"), max_length=120)
    starts_at = models.DateTimeField(_("starts"))
    ends_at = models.DateTimeField(_("ends"))
    site = models.ForeignKey(
        Site, models.PROTECT, null=True, blank=True, related_name="meetings", verbose_name=_("site")
    )
    place = models.CharField(_("place, if no site"), max_length=200, blank=True)
    is_walk = models.BooleanField(_("outdoors, needs a leader who is ready"), default=True)
    leader = models.ForeignKey(
        Person, models.PROTECT, null=True, blank=True, related_name="walks_led", verbose_name=_("leader")
    )
    assistants = models.ManyToManyField(Person, related_name="walks_assisted", blank=True, verbose_name=_("assistants"))
    modules = models.ManyToManyField(
        Module, through="MeetingModule", related_name="meetings", verbose_name=_("modules")
    )
    spot_test = models.ForeignKey(
        SpotTest, models.SET_NULL, null=True, blank=True, related_name="meetings", verbose_name=_("spot test")
    )
    note = models.TextField(_("plan and notes"), blank=True)
    wet_site = models.ForeignKey(
        Site, models.PROTECT, null=True, blank=True, related_name="+", verbose_name=_("site in bad weather")
    )
    wet_plan = models.TextField(_("plan for bad weather"), blank=True)
    wet_told_by = models.TimeField(_("hour by which a change is told"), null=True, blank=True)
    most_people = models.PositiveSmallIntegerField(_("most people"), null=True, blank=True)
    children_come = models.BooleanField(_("children come"), default=False)
    without_permission = models.TextField(_("why it is held without a permission on record"), blank=True)
    cancelled_at = models.DateTimeField(_("cancelled at"), null=True, blank=True)
    cancelled_because = models.CharField(_("why it is cancelled"), max_length=200, blank=True)
    changes = models.PositiveIntegerField(_("times that date, place or state changed"), default=0, editable=False)
    changed_at = models.DateTimeField(_("last changed at"), null=True, blank=True, editable=False)

    objects = MeetingQuerySet.as_manager()

    class Meta:
        verbose_name = _("meeting")
        verbose_name_plural = _("meetings")
        ordering = ["starts_at", "id"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(ends_at__gt=models.F("starts_at")), name="a_meeting_ends_after_it_starts"
            )
        ]

    def __str__(self) -> str:
        return self.title


class MeetingModule(models.Model):
    """A module taught at a meeting, in order."""

    meeting = models.ForeignKey(Meeting, models.CASCADE, related_name="modules_in_order")
    module = models.ForeignKey(Module, models.PROTECT, related_name="+", verbose_name=_("module"))
    order = models.PositiveSmallIntegerField(_("order"), default=0)
    taught = models.BooleanField(_("was taught"), null=True, blank=True)
    why_not = models.CharField(_("why it was not taught"), max_length=200, blank=True)

    class Meta:
        verbose_name = _("module of a meeting")
        verbose_name_plural = _("modules of meetings")
        ordering = ["meeting", "order"]
        constraints = [models.UniqueConstraint(fields=["meeting", "module"], name="a_module_once_in_a_meeting")]

    def __str__(self) -> str:
        return f"{self.meeting}: {self.module}"


class Enrolment(models.Model):
    """A place in a course, or a turn on its waiting list."""

    course = models.ForeignKey(Course, models.PROTECT, related_name="enrolments", verbose_name=_("course"))
    person = models.ForeignKey(Person, models.PROTECT, related_name="enrolments", verbose_name=_("person"))
    asked_at = models.DateTimeField(_("asked at"))
    waiting = models.BooleanField(_("on the waiting list"), default=False)
    withdrawn_at = models.DateTimeField(_("withdrawn at"), null=True, blank=True)

    objects = EnrolmentQuerySet.as_manager()

    class Meta:
        verbose_name = _("enrolment")
        verbose_name_plural = _("enrolments")
        ordering = ["course", "asked_at", "id"]
        constraints = [
            models.UniqueConstraint(
                fields=["course", "person"],
                condition=models.Q(withdrawn_at__isnull=True),
                name="one_standing_enrolment_per_course",
            )
        ]

    def __str__(self) -> str:
        return f"{self.course}: {self.person}"


class Presence(models.TextChoices):
    """What the register says of somebody at a meeting."""

    PRESENT = "present", _("here")
    LATE = "late", _("came late")
    LEFT_EARLY = "left_early", _("left early")
    ABSENT = "absent", _("not here")


class Attendance(models.Model):
    """One line of the register."""

    meeting = models.ForeignKey(Meeting, models.CASCADE, related_name="register", verbose_name=_("meeting"))
    person = models.ForeignKey(Person, models.PROTECT, related_name="attendances", verbose_name=_("person"))
    presence = models.CharField(_("presence"), max_length=12, choices=Presence.choices)
    note = models.CharField(_("note"), max_length=200, blank=True)
    marked_by = models.ForeignKey(Person, models.PROTECT, related_name="+", verbose_name=_("marked by"))
    marked_at = models.DateTimeField(_("marked at"))

    class Meta:
        verbose_name = _("line of the register")
        verbose_name_plural = _("register")
        ordering = ["meeting", "person"]
        constraints = [models.UniqueConstraint(fields=["meeting", "person"], name="one_line_per_person_and_meeting")]

    def __str__(self) -> str:
        return f"{self.meeting}: {self.person}"
