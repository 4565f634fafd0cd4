"""What is stored of people, courses, sites, certificates and readiness."""

from .certificates import (
    Application,
    Certificate,
    CertificateEvent,
    CertifiedPair,
    Complaint,
    Conflict,
    FoundingAssessor,
    ReviewOpened,
)
from .decision_appeals import DecisionAppeal
from .health import Consent, HealthReading, JoiningForm
from .incidents import Incident
from .letters import CalendarAddress, Letter, Reminder
from .people import Invitation, Person, Role, RoleGrant, School, SentMail
from .places import Enquiry, Offer, StandIn
from .protection import ErasureRequest, LegalGround
from .readiness import Availability, LeadingGrant, Requirement, RequirementRecord, WalkPart
from .sites import Site, SitePermission, SiteRecord, SiteReview
from .teaching import Attendance, Course, Enrolment, Meeting, MeetingModule, Presence

__all__ = [
    "Application",
    "Attendance",
    "Availability",
    "CalendarAddress",
    "Certificate",
    "CertificateEvent",
    "CertifiedPair",
    "Complaint",
    "Conflict",
    "Consent",
    "Course",
    "DecisionAppeal",
    "Enquiry",
    "Enrolment",
    "ErasureRequest",
    "FoundingAssessor",
    "HealthReading",
    "Incident",
    "Invitation",
    "JoiningForm",
    "LeadingGrant",
    "LegalGround",
    "Letter",
    "Meeting",
    "MeetingModule",
    "Offer",
    "Person",
    "Presence",
    "Reminder",
    "Requirement",
    "RequirementRecord",
    "ReviewOpened",
    "Role",
    "RoleGrant",
    "School",
    "SentMail",
    "Site",
    "SitePermission",
    "SiteRecord",
    "SiteReview",
    "StandIn",
    "WalkPart",
]
