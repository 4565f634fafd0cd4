"""What is stored of people, courses, certificates and readiness."""

from .certificates import Application, Certificate, CertificateEvent, FoundingAssessor, RequirementRecord
from .people import Invitation, Person, Role, RoleGrant, School, SentMail
from .teaching import Attendance, Course, Enrolment, Meeting, MeetingModule, Presence, Site

__all__ = [
    "Application",
    "Attendance",
    "Certificate",
    "CertificateEvent",
    "Course",
    "Enrolment",
    "FoundingAssessor",
    "Invitation",
    "Meeting",
    "MeetingModule",
    "Person",
    "Presence",
    "RequirementRecord",
    "Role",
    "RoleGrant",
    "School",
    "SentMail",
    "Site",
]
