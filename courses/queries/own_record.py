"""All that the school holds about one person, in one file for that person: this room's part beside that of the tests.

Table by table, with what others wrote about them. Left out: who wrote or read it, what an organiser was
written about others, the keys of addresses, and the pictures themselves.
"""

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db.models import Model, Q

from assessments.queries.own_record import own_record
from courses.models import (
    Application,
    Attendance,
    Availability,
    CalendarAddress,
    Certificate,
    CertificateEvent,
    Complaint,
    Conflict,
    Consent,
    Course,
    DecisionAppeal,
    Enquiry,
    Enrolment,
    ErasureRequest,
    FoundingAssessor,
    HealthReading,
    Invitation,
    JoiningForm,
    LeadingGrant,
    Letter,
    Meeting,
    Offer,
    Person,
    Reminder,
    RequirementRecord,
    ReviewOpened,
    RoleGrant,
    StandIn,
    WalkPart,
)
from courses.queries.people import addresses_of, at_any
from species.models import Determination, Photo

SCHEME = 1
"""The number of this form; it rises when a field changes its meaning."""


@dataclass(frozen=True)
class Section:
    """One table: how a row is known to be about the person (`by_address`: by their e-mail addresses), what is told of
    it, and the kinds of rows that are about others."""

    model: type[Model]
    of: str
    fields: tuple[str, ...]
    by_address: bool = False
    of_others: tuple[str, ...] = ()


LETTERS_OF_OFFICE = ("enquiry", "complaint", "erasure_asked", "certificate_review")
"""What organisers are written about others."""


SECTIONS: dict[str, Section] = {
    "roles": Section(RoleGrant, "person", ("role", "since", "until", "reason")),
    "invitations": Section(Invitation, "email", ("email", "name", "role", "invited_at", "accepted_at"), True),
    "places": Section(Enrolment, "person", ("course__title", "asked_at", "waiting", "withdrawn_at")),
    "offers": Section(
        Offer, "enrolment__person", ("enrolment__course__title", "offered_at", "answer_by", "taken_at", "declined_at")
    ),
    "register": Section(Attendance, "person", ("meeting__title", "meeting__starts_at", "presence", "note")),
    "stood_in": Section(StandIn, "person", ("meeting__title", "named_at", "reason", "taken_back_at")),
    "consents": Section(
        Consent, "enrolment__person", ("enrolment__course__title", "kind", "words", "given_at", "withdrawn_at")
    ),
    "joining_forms": Section(
        JoiningForm, "enrolment__person", ("enrolment__course__title", "filled_at", "changed_at", "erased_at")
    ),
    "readings_of_joining_forms": Section(HealthReading, "form__enrolment__person", ("read_at", "meeting__title")),
    "letters": Section(
        Letter, "person", ("kind", "subject", "text", "queued_at", "sent_at"), of_others=LETTERS_OF_OFFICE
    ),
    "reminders": Section(Reminder, "person", ("kind", "about", "days_before", "written_at")),
    "calendar_addresses": Section(CalendarAddress, "person", ("made_at", "ended_at")),
    "questions": Section(Enquiry, "email", ("text", "asked_at", "answer", "answered_at"), True),
    "complaints": Section(Complaint, "email", ("text", "received_at", "answer", "answered_at"), True),
    "proofs": Section(RequirementRecord, "person", ("kind", "valid_from", "valid_until", "seen_on", "note")),
    "steps_to_leading": Section(WalkPart, "person", ("step", "walked_on", "went_well", "confirmed_on", "note")),
    "leave_to_lead": Section(
        LeadingGrant, "person", ("region", "months", "valid_from", "valid_until", "reason", "ended_on")
    ),
    "availability": Section(Availability, "person", ("meeting__title", "can_come", "said_at")),
    "applications": Section(
        Application, "person", ("standard__name", "applied_at", "taken_back_at", "decided_at", "granted", "reason")
    ),
    "appeals_against_decisions": Section(
        DecisionAppeal, "person", ("words", "received_at", "decide_by", "outcome", "ended_at", "reasons")
    ),
    "certificates": Section(Certificate, "person", ("number", "issued_at", "valid_from", "valid_until", "facts")),
    "events_of_certificates": Section(
        CertificateEvent, "certificate__person", ("certificate__number", "kind", "happened_at", "reason")
    ),
    "reviews_of_certificates": Section(
        ReviewOpened, "certificate__person", ("certificate__number", "reason", "told_at", "closed_at")
    ),
    "conflicts_declared": Section(Conflict, "decider", ("reason", "declared_on", "ended_on")),
    "conflicts_declared_about_them": Section(Conflict, "about", ("reason", "declared_on", "ended_on")),
    "trusted_to_decide": Section(FoundingAssessor, "person", ("reason", "recorded_on")),
    "courses_taught": Section(Course, "tutors", ("title", "starts_on", "ends_on")),
    "led": Section(Meeting, "leader", ("title", "starts_at", "cancelled_at")),
    "assisted": Section(Meeting, "assistants", ("title", "starts_at", "cancelled_at")),
    "plants_named": Section(Determination, "determiner__person", ("species__name", "said", "determined_at")),
    "pictures_brought": Section(
        Photo, "added_by__person", ("taken_at", "latitude", "longitude", "camera", "added_at", "licence")
    ),
    "requests_to_be_erased": Section(
        ErasureRequest, "person", ("asked_at", "decide_by", "taken_back_at", "decided_at", "granted", "reason")
    ),
}
"""What the file holds, in its order."""


def everything_of(person: Person, now: datetime) -> dict[str, Any]:
    """The file as plain values; moments are in UTC. What was told in confidence is added by whoever may open it."""
    return {"scheme": SCHEME, "school": _school(person), "tests": own_record(person.user, now)}


def _school(person: Person) -> dict[str, Any]:
    own = addresses_of(person)
    told: dict[str, Any] = {
        "person": {
            "name": person.name,
            "family_name": person.family_name,
            "email": person.user.email,
            "phone": person.phone,
            "note_of_the_school": person.note,
            "joined_on": person.joined_on,
            "left_on": person.left_on,
        }
    }
    for name, section in SECTIONS.items():
        theirs = at_any(section.of, own) if section.by_address else Q(**{section.of: person.pk})
        found = section.model._base_manager.filter(theirs)
        if section.of_others:
            found = found.exclude(kind__in=section.of_others)
        rows = found.order_by("pk").values(*section.fields)
        told[name] = [{field.replace("__", "_"): value for field, value in row.items()} for row in rows]
    return told
