"""The inventory in words: purposes, whose data, who sees them, how long they are kept, what protects them."""

from django.conf import settings
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from courses.rules.erasure import NAME_KEPT_YEARS
from courses.rules.inventory.activities import Guard, Reader, SentTo, Whose
from courses.rules.inventory.shape import Activity, Term

TITLES = {
    Activity.SCHOOL: gettext_lazy("The school itself"),
    Activity.PEOPLE: gettext_lazy("Who belongs to the school"),
    Activity.SIGN_IN: gettext_lazy("Signing in"),
    Activity.INVITATIONS: gettext_lazy("Inviting people"),
    Activity.LETTERS: gettext_lazy("Writing to people"),
    Activity.ENQUIRIES: gettext_lazy("Answering questions from outside"),
    Activity.COURSES: gettext_lazy("Running courses and keeping registers"),
    Activity.CONFIDENCE: gettext_lazy("Knowing on a walk what matters for safety"),
    Activity.SITES: gettext_lazy("Using sites safely and with leave"),
    Activity.INCIDENTS: gettext_lazy("Learning from incidents and near misses"),
    Activity.LEADING: gettext_lazy("Letting only those lead who are ready"),
    Activity.CERTIFICATES: gettext_lazy("Issuing certificates and standing by them"),
    Activity.COMPLAINTS: gettext_lazy("Answering complaints"),
    Activity.TESTS: gettext_lazy("Finding out what somebody can tell apart"),
    Activity.PRACTICE: gettext_lazy("Practising for oneself"),
    Activity.BANK: gettext_lazy("Keeping plants, pictures and who named them"),
    Activity.TEACHING: gettext_lazy("Writing down what is taught and asked"),
    Activity.PROTECTION: gettext_lazy("Protecting data: requests and legal grounds"),
}
WHOSE = {
    Whose.EVERYBODY: gettext_lazy("everybody who signs in"),
    Whose.PARTICIPANTS: gettext_lazy("participants"),
    Whose.STAFF: gettext_lazy("those who work for the school"),
    Whose.LEADERS: gettext_lazy("leaders of walks, and those on the way"),
    Whose.HOLDERS: gettext_lazy("holders of certificates"),
    Whose.ENQUIRERS: gettext_lazy("whoever writes to the school"),
    Whose.OUTSIDERS: gettext_lazy("people from outside who were asked for something"),
    Whose.LANDOWNERS: gettext_lazy("those who allow the use of a site"),
}
READERS = {
    Reader.ORGANISERS: gettext_lazy("organisers"),
    Reader.TUTORS: gettext_lazy("tutors, of their own courses"),
    Reader.EVERY_TUTOR: gettext_lazy("every tutor"),
    Reader.STAND_INS: gettext_lazy("whoever stands in, on the day and the day before"),
    Reader.ASSESSORS: gettext_lazy("assessors"),
    Reader.STAFF: gettext_lazy("everybody who works for the school"),
    Reader.OWNER: gettext_lazy("the person alone"),
    Reader.STRANGERS: gettext_lazy("whoever checks a certificate: its state, and the name only if the holder shows it"),
    Reader.PUBLIC: gettext_lazy("everybody"),
    Reader.NOBODY: gettext_lazy("nobody on a page; whoever runs the server"),
}
GUARDS = {
    Guard.SEALED: gettext_lazy("encrypted field by field, the keys kept apart from the database"),
    Guard.READING_LOGGED: gettext_lazy("who read it is written down"),
    Guard.WRITTEN_ONCE: gettext_lazy("written once and never changed"),
    Guard.SECRET_ADDRESS: gettext_lazy("addresses that cannot be guessed"),
    Guard.NO_PASSWORD: gettext_lazy("codes by e-mail and passkeys, no passwords"),
    Guard.NO_NAME_SHOWN: gettext_lazy("the check shows no name unless the holder wants it"),
    Guard.NO_NAME_WRITTEN: gettext_lazy("written without naming who was learning"),
    Guard.BLURRED: gettext_lazy("places are shown to others only roughly"),
    Guard.LIMITED: gettext_lazy("tries are limited"),
}
SENT_TO = {
    SentTo.MAIL: gettext_lazy("The mail server: addresses and texts of letters, and codes to sign in with."),
    SentTo.HOSTING: gettext_lazy("Whoever runs the computer that this site is on: all of it."),
    SentTo.COPIES: gettext_lazy("Whoever keeps the copies in case of damage: all of it, as it was on that day."),
}


def term_words(term: Term) -> str:
    """How long something is kept, with the numbers that the program really uses."""
    return {
        Term.SCHOOL: _("as long as the school uses it"),
        Term.ERASED: _("until the person is erased"),
        Term.CODE: _("for good, under a code once the person is erased"),
        Term.CERTIFICATE: ngettext(
            "for good; the name until the person is erased, and no sooner than %s year after the last day of the "
            "certificate",
            "for good; the name until the person is erased, and no sooner than %s years after the last day of the "
            "certificate",
            NAME_KEPT_YEARS,
        )
        % NAME_KEPT_YEARS,
        Term.INCIDENT: _("as long as insurer and law ask; without the name once the person is erased"),
        Term.HEALTH: _("%s days after the last meeting of the course") % settings.HEALTH_NOTES_KEPT_DAYS,
        Term.ENQUIRY: _("%s days after the question") % settings.ENQUIRIES_KEPT_DAYS,
        Term.LETTER: _("a year after it was sent"),
        Term.READING: _("a year"),
        Term.REMINDER: _("two years"),
        Term.CALENDAR: _("a year after the address was ended"),
        Term.INVITATION: _("a year after it could last be used"),
        Term.NOTICE: _("a year after it was sent"),
        Term.COMPLAINT: _("three years after the answer"),
        Term.SESSION: _("until it runs out, %s days after signing in") % (settings.SESSION_COOKIE_AGE // 86_400),
        Term.CONFIRMATION: _("thirty days"),
        Term.INVENTED: _("in an invented school alone"),
    }[term]
