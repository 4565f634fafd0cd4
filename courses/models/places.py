"""Asking for a place and being offered one."""

from django.db import models
from django.utils.translation import gettext_lazy as _

from courses.querysets import EnquiryQuerySet, OfferQuerySet
from species.rules.keys import new_key

from .people import Person
from .teaching import Course, Enrolment, Meeting


class Enquiry(models.Model):
    """A question of somebody who may not have an account."""

    key = models.CharField(_("key"), max_length=32, unique=True, default=new_key, editable=False)
    course = models.ForeignKey(
        Course, models.SET_NULL, null=True, blank=True, related_name="enquiries", verbose_name=_("course")
    )
    name = models.CharField(_("name"), max_length=120)
    email = models.EmailField(_("e-mail"))
    text = models.TextField(_("question"))
    asked_at = models.DateTimeField(_("asked at"))
    answer = models.TextField(_("answer"), blank=True)
    answered_at = models.DateTimeField(_("answered at"), null=True, blank=True)
    answered_by = models.ForeignKey(
        Person, models.PROTECT, null=True, blank=True, related_name="+", verbose_name=_("answered by")
    )
    closed_at = models.DateTimeField(_("closed at"), null=True, blank=True)

    objects = EnquiryQuerySet.as_manager()

    class Meta:
        verbose_name = _("enquiry")
        verbose_name_plural = _("enquiries")
        ordering = ["-asked_at"]

    def __str__(self) -> str:
        return self.name


class Offer(models.Model):
    """A place that became free, kept for somebody on the waiting list until an hour."""

    enrolment = models.ForeignKey(Enrolment, models.CASCADE, related_name="offers", verbose_name=_("turn"))
    offered_at = models.DateTimeField(_("offered at"))
    answer_by = models.DateTimeField(_("answer by"))
    taken_at = models.DateTimeField(_("taken at"), null=True, blank=True)
    declined_at = models.DateTimeField(_("declined at"), null=True, blank=True)
    lapsed_at = models.DateTimeField(_("lapsed at"), null=True, blank=True)

    objects = OfferQuerySet.as_manager()

    class Meta:
        verbose_name = _("offer of a place")
        verbose_name_plural = _("offers of places")
        ordering = ["-offered_at", "-id"]
        constraints = [
            models.UniqueConstraint(
                fields=["enrolment"],
                condition=models.Q(taken_at__isnull=True, declined_at__isnull=True, lapsed_at__isnull=True),
                name="one_open_offer_per_turn",
            )
        ]

    def __str__(self) -> str:
        return str(self.enrolment)


class StandIn(models.Model):
    """Somebody who takes a meeting over for one day, and sees what its tutor would see."""

    meeting = models.ForeignKey(Meeting, models.CASCADE, related_name="stand_ins", verbose_name=_("meeting"))
    person = models.ForeignKey(Person, models.PROTECT, related_name="stands_in", verbose_name=_("stand-in"))
    named_by = models.ForeignKey(Person, models.PROTECT, related_name="+", verbose_name=_("named by"))
    named_at = models.DateTimeField(_("named at"))
    reason = models.CharField(_("reason"), max_length=200, blank=True)
    taken_back_at = models.DateTimeField(_("taken back at"), null=True, blank=True)

    class Meta:
        verbose_name = _("stand-in")
        verbose_name_plural = _("stand-ins")
        ordering = ["-named_at", "-id"]
        constraints = [
            models.UniqueConstraint(
                fields=["meeting", "person"],
                condition=models.Q(taken_back_at__isnull=True),
                name="a_stand_in_is_named_once",
            )
        ]

    def __str__(self) -> str:
        return f"{self.meeting}: {self.person}"
