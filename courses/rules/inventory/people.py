"""The inventory of people: who they are, how they sign in, what is written to them, what they asked for. Pure."""

from .shape import Activity, Term, holds

LINES = (
    holds(
        "courses.School", Activity.SCHOOL, Term.SCHOOL,
        contact="postal_address email",
        none="id name region address time_zone language emergency_number poisons_number is_demo seeded_on",
    ),
    holds(
        "courses.Person", Activity.PEOPLE, Term.ERASED,
        name="name family_name", contact="phone", words="note", link="user",
        fact="uuid joined_on left_on erased_on", none="id",
    ),
    holds(
        "courses.RoleGrant", Activity.PEOPLE, Term.CODE,
        link="person granted_by", fact="role since until", words="reason", none="id",
    ),
    holds(
        "auth.User", Activity.SIGN_IN, Term.ERASED,
        name="first_name last_name", contact="username email", sign_in="password",
        fact="last_login is_superuser is_staff is_active date_joined groups user_permissions", none="id",
    ),
    holds(
        "account.EmailAddress", Activity.SIGN_IN, Term.ERASED,
        link="user", contact="email", fact="verified primary", none="id",
    ),
    holds(
        "account.EmailConfirmation", Activity.SIGN_IN, Term.CONFIRMATION,
        link="email_address", fact="created sent", sign_in="key", none="id",
    ),
    holds(
        "mfa.Authenticator", Activity.SIGN_IN, Term.ERASED,
        link="user", sign_in="type data", fact="created_at last_used_at", none="id",
    ),
    holds(
        "sessions.Session", Activity.SIGN_IN, Term.SESSION,
        sign_in="session_key session_data", none="expire_date",
    ),
    holds(
        "courses.Invitation", Activity.INVITATIONS, Term.INVITATION,
        name="name", contact="email", fact="role course invited_at closes_at accepted_at withdrawn_at",
        link="invited_by", sign_in="key", none="id",
    ),
    holds(
        "courses.Letter", Activity.LETTERS, Term.LETTER,
        contact="to", link="person", words="subject text html trouble",
        fact="kind queued_at due_at attempts claimed_at sent_at given_up_at", none="id uuid",
    ),
    holds(
        "courses.SentMail", Activity.LETTERS, Term.INVENTED,
        contact="to", words="subject body", fact="sent_at", none="id",
    ),
    holds(
        "courses.Reminder", Activity.LETTERS, Term.REMINDER,
        link="person", fact="kind about days_before written_at", none="id",
    ),
    holds(
        "courses.CalendarAddress", Activity.LETTERS, Term.CALENDAR,
        link="person", sign_in="key", fact="made_at ended_at", none="id",
    ),
    holds(
        "assessments.Notice", Activity.LETTERS, Term.NOTICE,
        link="person", fact="kind happened_at sent_at", words="facts", none="id",
    ),
    holds(
        "courses.Enquiry", Activity.ENQUIRIES, Term.ENQUIRY,
        name="name", contact="email", words="text answer", fact="course asked_at answered_at closed_at",
        link="answered_by", none="id key",
    ),
    holds(
        "courses.Complaint", Activity.COMPLAINTS, Term.COMPLAINT,
        name="name", contact="email", words="text answer", fact="received_at answered_at",
        link="answered_by", none="id key",
    ),
    holds(
        "courses.ErasureRequest", Activity.PROTECTION, Term.CODE,
        link="person recorded_by decided_by", words="reason",
        fact="asked_at decide_by taken_back_at decided_at granted names_until completed_at", none="id key",
    ),
    holds(
        "courses.LegalGround", Activity.PROTECTION, Term.SCHOOL,
        words="words", none="id activity",
    ),
)  # fmt: skip
"""What signs in is kept by Django and by packages; their models stand here beside ours."""
