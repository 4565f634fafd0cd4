"""What goes on around the courses of the invented school: the next course in public, questions about it, a recce, a
near miss, what people told before the first day, and steps on the way to leading."""

from datetime import timedelta
from typing import TYPE_CHECKING

from courses.actions.demo.teaching import next_weekday, run_course
from courses.actions.enquiries import ask
from courses.actions.health import fill_form
from courses.actions.leading import confirm_step, say_availability
from courses.actions.site_records import draw_lesson, note_incident, note_plant, review_site
from courses.models import Incident, Meeting, SiteReview, WalkPart
from courses.queries.course_plan import calendars
from courses.rules.notes import Agreed, Notes
from courses.rules.risk import HEADINGS
from species.models import Pair, Species
from species.rules.season import stages_showing
from species.rules.vocabulary import Stage

if TYPE_CHECKING:
    from courses.actions.demo.school import Story

WEEKS_AHEAD = 6
TOLD = {
    "participant": Notes(
        emergency_contact="Perrin Applegarth-Low, at home: see the card in my hat",
        mobility="Slow on steep ground; happy to start early",
    ),
    "dorothea.minchinmoss": Notes(
        emergency_contact="Neighbour at the mill", allergies="Hazel and birch pollen; celery"
    ),
}
"""By the front of an address. Nobody can be telephoned here."""
RECCE = {
    "site_and_access": "Lower gate open; six cars. Path clear as far as the footbridge.",
    "ground": "Stream bank slippery for two metres beyond the bridge: rope taken along.",
    "plants": "Dropwort and hemlock within arm's reach of the path. Nobody picks on the stream side.",
    "ticks_and_stings": "Bracken is high. Long sleeves, and a look at each other afterwards.",
    "signal": "None below the footbridge: the assistant stays above it.",
    "emergency": "Lower gate, mill lane. Key of the bar is in the box.",
}


def let_things_go_on(story: "Story") -> None:
    """Something on every page that a course alone leaves empty."""
    _announce(story)
    _recce(story)
    _near_miss(story)
    _joining(story)
    _steps(story)


def _announce(story: "Story") -> None:
    first = next_weekday(story.today, 5) + timedelta(weeks=WEEKS_AHEAD)
    tutor = story.person("tutor")
    course = run_course(
        "first-leaves",
        "The leave-it-alone plants, eight weeks",
        "The dangerous plants first, and only then what they are mistaken for.",
        first,
        story.standards["participant"],
        [tutor],
        story.sites,
        12,
        tutor,
    )
    course.effort = "Two to four kilometres on rough paths, in any weather but storm."
    course.price = "240 for eight days, 120 for whoever says that it is too much"
    course.who_may_come = "Anybody from sixteen. Nothing needs to be known beforehand."
    course.is_public = True
    course.save()
    story.courses["coming"] = course
    for days, name, text in (
        (3, "Isolde Crumplehorn", "Is the path at the mill level enough for a stick and a bad knee?"),
        (1, "Bran Tolliver-Moss", "May I bring my daughter, who is fourteen and knows more than I do?"),
    ):
        address = f"{name.split()[0].lower()}@visitors.invalid"
        ask(course, name=name, email=address, text=text, now=story.now - timedelta(days=days))


def _recce(story: "Story") -> None:
    site, tutor, day = story.sites[0], story.person("tutor"), story.today
    before = dict.fromkeys(HEADINGS, "") | {**RECCE, "ground": "Dry and firm.", "ticks_and_stings": ""}
    for ago, found, decision in (
        (200, before, SiteReview.Decision.GO),
        (6, RECCE, SiteReview.Decision.CHANGE),
    ):
        review_site(
            site,
            found,
            meeting=None,
            by=tutor,
            today=day - timedelta(days=ago),
            walked_on=day - timedelta(days=ago),
            review_again_by=day + timedelta(days=180 - ago),
            residual_risk="Low while nobody picks on the stream side.",
            decision=decision,
            reason="" if decision == SiteReview.Decision.GO else "The bank beyond the bridge is left out.",
        )
    shows = calendars()
    for key in ("oenanthe-crocata", "arum-maculatum"):
        seen_on = day - timedelta(days=6)
        for stage in set(stages_showing(shows[key], seen_on)) - {Stage.DORMANT}:
            note_plant(site, Species.objects.get(key=key), stage.value, seen_on=seen_on, note="By the bridge", by=tutor)


def _near_miss(story: "Story") -> None:
    tutor, over = story.person("tutor"), story.courses["running"].meetings.over(story.now).order_by("-starts_at")
    pairs = Pair.objects.dangerous().order_by("order", "pk")
    meeting = next(each for each in over if pairs.filter(modules__in=each.modules.all()).exists())
    pair = pairs.filter(modules__in=meeting.modules.all())[0]
    incident = Incident(
        kind=Incident.Kind.NEAR_MISS,
        happened_at=meeting.starts_at + timedelta(hours=1),
        meeting=meeting,
        pair=pair,
        picked=pair.mistaken,
        account="One of the wrong plant lay in a basket among the others: the two grow through each other there, and "
        "were picked by the handful.",
        noticed_by=Incident.Noticed.PARTICIPANT,
        sign="Looked at one by one, on both sides, before anything was rinsed",
    )
    note_incident(incident, by=tutor, now=meeting.ends_at)
    draw_lesson(incident, "Leaf by leaf, each looked at on both sides, before it goes into the basket.", tutor)


def _joining(story: "Story") -> None:
    places = story.courses["running"].enrolments.with_a_place()
    for name, notes in TOLD.items():
        agreed = Agreed({"health": "I agree that the school keeps these notes for the course."})
        fill_form(places.get(person=story.person(name)), notes, agreed, story.now - timedelta(weeks=6))


def _steps(story: "Story") -> None:
    organiser, walks = story.person("organiser"), Meeting.objects.walks().over(story.now).filter(course__isnull=True)
    learner = story.person("tamsin.bellharrow")
    for step, walk in zip((WalkPart.Step.WATCHED, WalkPart.Step.ASSISTED), walks.order_by("starts_at"), strict=False):
        part = WalkPart(person=learner, step=step, meeting=walk, walked_on=walk.starts_at.date())
        confirm_step(part, by=organiser, today=story.today - timedelta(days=20))
    open_walk = Meeting.objects.walks().coming(story.now).without_leader().get()
    say_availability(story.person("leader"), open_walk, True, story.now)
    say_availability(story.person("anselm.rookwither"), open_walk, False, story.now)
