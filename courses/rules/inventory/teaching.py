"""The inventory of courses, meetings and sites, of what is told in confidence, and of what went wrong. Pure."""

from .shape import Activity, Term, holds

LINES = (
    holds(
        "courses.Course", Activity.COURSES, Term.SCHOOL,
        words="title summary bring effort price who_may_come place_rule", link="tutors",
        none="id key standard starts_on ends_on capacity papers is_public skipped_days copied_from",
    ),
    holds(
        "courses.Meeting", Activity.COURSES, Term.SCHOOL,
        words="title place note wet_plan without_permission cancelled_because", link="leader assistants",
        none="id key course starts_at ends_at site is_walk modules spot_test wet_site wet_told_by most_people "
        "children_come cancelled_at changes changed_at",
    ),
    holds(
        "courses.MeetingModule", Activity.COURSES, Term.SCHOOL,
        words="why_not", none="id meeting module order taught",
    ),
    holds(
        "courses.Enrolment", Activity.COURSES, Term.CODE,
        link="person", fact="course asked_at waiting withdrawn_at", none="id",
    ),
    holds(
        "courses.Offer", Activity.COURSES, Term.CODE,
        link="enrolment", fact="offered_at answer_by taken_at declined_at lapsed_at", none="id",
    ),
    holds(
        "courses.Attendance", Activity.COURSES, Term.CODE,
        link="person marked_by", fact="meeting presence marked_at", words="note", none="id",
    ),
    holds(
        "courses.StandIn", Activity.COURSES, Term.CODE,
        link="person named_by", fact="meeting named_at taken_back_at", words="reason", none="id",
    ),
    holds(
        "courses.JoiningForm", Activity.CONFIDENCE, Term.HEALTH,
        link="enrolment", secret="emergency_contact allergies medicines pregnancy mobility",
        fact="filled_at changed_at erased_at", none="id uuid",
    ),
    holds(
        "courses.Consent", Activity.CONFIDENCE, Term.ERASED,
        link="enrolment", fact="kind words version given_at withdrawn_at", none="id",
    ),
    holds(
        "courses.HealthReading", Activity.CONFIDENCE, Term.READING,
        link="form reader", fact="read_at meeting", none="id",
    ),
    holds(
        "courses.Site", Activity.SITES, Term.SCHOOL,
        words="access meeting_point hazards emergency_place phone_signal access_gate nearest_road hospital who_calls "
        "facilities",
        none="id locality region group_size",
    ),
    holds(
        "courses.SitePermission", Activity.SITES, Term.SCHOOL,
        words="given_by conditions proof", link="recorded_by",
        none="id site walking picking digging valid_from valid_until recorded_on ended_on",
    ),
    holds(
        "courses.SiteRecord", Activity.SITES, Term.CODE,
        link="seen_by", words="note", none="id site species stage seen_on",
    ),
    holds(
        "courses.SiteReview", Activity.SITES, Term.CODE,
        link="reviewed_by", words="headings residual_risk reason",
        none="id site meeting walked_on reviewed_on review_again_by decision",
    ),
    holds(
        "courses.Incident", Activity.INCIDENTS, Term.INCIDENT,
        link="noted_by lesson_by", words="account sign lesson",
        none="id key kind happened_at noted_at meeting site pair picked stage noticed_by",
    ),
    holds(
        "courses.Requirement", Activity.LEADING, Term.SCHOOL,
        none="id key part kind title standard proof number within_months at_the_site with_children order",
    ),
    holds(
        "courses.RequirementRecord", Activity.LEADING, Term.CODE,
        link="person seen_by", fact="kind valid_from valid_until seen_on site", words="note", none="id",
    ),
    holds(
        "courses.WalkPart", Activity.LEADING, Term.CODE,
        link="person confirmed_by", fact="step meeting walked_on went_well confirmed_on", words="note", none="id",
    ),
    holds(
        "courses.LeadingGrant", Activity.LEADING, Term.CODE,
        link="person granted_by", fact="months valid_from valid_until ended_on", words="region reason", none="id",
    ),
    holds(
        "courses.Availability", Activity.LEADING, Term.ERASED,
        link="person", fact="meeting can_come said_at", none="id",
    ),
)  # fmt: skip
