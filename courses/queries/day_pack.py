"""The words of the printed pack of a meeting: what the page on the telephone says, for when there is no telephone."""

from django.utils import timezone
from django.utils.formats import date_format, time_format
from django.utils.text import capfirst
from django.utils.translation import get_language
from django.utils.translation import gettext as _

from courses.documents.sheet import SheetPart, SheetWords
from courses.queries.people import the_school
from courses.queries.sentences.risk import HEADING_WORDS
from courses.rules.risk import HEADINGS
from species.queries.letterhead import cautions

from .day_page import DayPage, Told
from .site_plants import Met
from .site_sheets import emergency_parts


def pack_words(page: DayPage) -> SheetWords:
    """The pack, the most urgent first."""
    meeting, school = page.meeting, the_school()
    starts, ends = timezone.localtime(meeting.starts_at), timezone.localtime(meeting.ends_at)
    when = (
        f"{date_format(starts, 'l')}, {date_format(starts, 'DATE_FORMAT')}, {time_format(starts)}–{time_format(ends)}"
    )
    parts = [
        *emergency_parts(meeting.site),
        *_told_parts(page),
        SheetPart(_("Dangerous plants to be met"), _dangers(page.dangers), alarm=True),
        SheetPart(_("How to get there"), tuple(_way(page))),
        SheetPart(_("What we look at"), tuple(_plan(page))),
        SheetPart(_("In bad weather"), (meeting.wet_plan or _("Nothing else is planned."),)),
        SheetPart(_("In the bag"), tuple(f"[   ]  {each}" for each in page.kit)),
        SheetPart(_("Register"), tuple(f"[   ]  {line.person.name}" for line in page.register.lines)),
        *_risks(page),
    ]
    return SheetWords(
        title=meeting.title,
        subtitle=when,
        language=get_language() or "en",
        author=school.name if school else "",
        parts=tuple(part for part in parts if part.lines),
        cautions=" ".join(cautions()),
        page_of=_("{page} of {pages}"),
        format="A5",
    )


def _told_parts(page: DayPage) -> list[SheetPart]:
    if page.told is None:
        return []
    urgent = tuple(_told_line(each) for each in page.not_eating)
    nothing = ", ".join(person.name for person in page.tastes_nothing)
    missing = ", ".join(each.person.name for each in page.told if each.notes is None)
    parts = [SheetPart(_("Who must not eat what"), urgent or (_("Nobody told us of anything."),), alarm=bool(urgent))]
    if nothing:
        parts.append(SheetPart(_("Tastes nothing"), (nothing,)))
    if missing:
        parts.append(SheetPart(_("No form yet: ask"), (missing,)))
    contacts = [f"{each.person.name}: {each.notes.emergency_contact}" for each in page.told if each.notes]
    parts.append(SheetPart(_("Whom to call for whom"), tuple(line for line in contacts if not line.endswith(": "))))
    return parts


def _told_line(told: Told) -> str:
    notes = told.notes
    if notes is None or notes.cannot_be_read:
        return _("%s: something was told and cannot be read. Ask.") % told.person.name
    said = [notes.allergies, notes.pregnancy and _("pregnancy: %s") % notes.pregnancy]
    return f"{told.person.name}: " + "; ".join(each for each in said if each)


def _dangers(dangers: tuple[Met, ...]) -> tuple[str, ...]:
    if not dangers:
        return (_("None is on record for this day. That does not mean that there are none."),)
    return tuple(
        f"{capfirst(each.species.common_name)} ({each.species.name}): "
        + (", ".join(each.stage_words) or _("seen here lately"))
        for each in dangers
    )


def _way(page: DayPage) -> list[str]:
    site = page.meeting.site
    if site is None:
        return [page.meeting.place]
    met = [_("We meet: %s") % site.meeting_point] if site.meeting_point else []
    return [site.locality.name, *met, site.access, site.facilities]


def _plan(page: DayPage) -> list[str]:
    lines = []
    for module in page.plan:
        pairs = "; ".join(
            f"{each.pair.gathered.common_name} / {each.pair.mistaken.common_name}" for each in module.pairs
        )
        lines.append(f"{module.module.title}: {pairs}" if pairs else module.module.title)
    return [*lines, page.meeting.note]


def _risks(page: DayPage) -> list[SheetPart]:
    if page.review is None:
        return [SheetPart(_("Recce and risks"), (_("Nobody has written them down for this site."),), alarm=True)]
    headings = page.review.headings
    lines = tuple(f"{HEADING_WORDS[name]}: {headings[name]}" for name in HEADINGS if headings.get(name))
    return [SheetPart(_("Recce and risks"), (*lines, page.review.get_decision_display()))]
