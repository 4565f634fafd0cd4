"""Appeals as pages show them: in a list, and one of them with everything that was done about it."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth.models import User
from django.db.models import Exists, OuterRef, Subquery
from django.utils import timezone
from django.utils.translation import gettext as _

from assessments.models import Appeal, AppealStep, Notice
from assessments.models.appeals import GROUND_WORDS
from assessments.rules.appeals import ENDS, Bar, Eligibility, NewNames, State, Step, outcomes_open, state_of
from species.models import Determination

from .appeal_answer import AnswerShown, answer_shown, title_of
from .appeals import NAME_ANEW, Decider, deciders_of, new_names_of, whole_appeals
from .people import name_of
from .sentences.appeals import (
    NOTICE_SENTENCES,
    STATE_MARKS,
    STATE_WORDS,
    STEP_SENTENCES,
    bars_of_another,
    bars_to_you,
    day_word,
    new_names_sentence,
    notice_lines,
)

GROUNDS = dict(GROUND_WORDS)


@dataclass(frozen=True)
class AppealLine:
    """One appeal in a list. `ending`: how and when it ended, empty until then.

    `bars`: why the viewer may not decide it; `deciders`: names of those who may.
    """

    appeal: Appeal
    title: str
    person: str
    state: State
    word: str
    mark: str
    is_late: bool
    ending: str = ""
    bars: tuple[str, ...] = ()
    deciders: tuple[str, ...] = ()


@dataclass(frozen=True)
class Event:
    """One thing that happened, as `pieces/timeline.html` takes it."""

    at: datetime
    what: str
    who: str


@dataclass(frozen=True)
class AppealPage:
    """One appeal. What concerns deciding is filled for those who decide appeals."""

    line: AppealLine
    answer: AnswerShown
    ground: str
    events: tuple[Event, ...]
    is_own: bool
    may_be_withdrawn: bool
    eligibility: Eligibility
    others: tuple[tuple[str, str], ...]
    new_names: NewNames | None
    new_names_sentence: str
    outcomes: tuple[Step, ...]

    @property
    def is_open(self) -> bool:
        return self.line.state in (State.RECEIVED, State.LOOKED_AT)

    @property
    def may_decide(self) -> bool:
        return self.is_open and self.eligibility.may_decide


def my_appeals(person: User, now: datetime) -> list[AppealLine]:
    """A person's own appeals, the latest first."""
    return [_line(each, now) for each in whole_appeals().of(person.pk).order_by("-received_at")]


def appeals_to_decide(viewer: User, now: datetime) -> list[AppealLine]:
    """What waits for a decision, the most urgent first, each with whether the viewer may decide it."""
    rows = list(whole_appeals().undecided())
    deciders = deciders_of(rows)
    return [_line(each, now, viewer, deciders[each.pk]) for each in rows]


def appeals_decided(now: datetime, most: int = 50) -> list[AppealLine]:
    """What was decided, the latest first."""
    rows = whole_appeals().decided().order_by("-steps__at")[:most]
    return [_line(each, now) for each in rows]


def _line(appeal: Appeal, now: datetime, viewer: User | None = None, deciders: Iterable[Decider] = ()) -> AppealLine:
    state = state_of([step.kind for step in appeal.steps.all()])
    is_open = state in (State.RECEIVED, State.LOOKED_AT)
    found = list(deciders)
    return AppealLine(
        appeal=appeal,
        title=title_of(appeal.evidence),
        person=name_of(appeal.evidence.person),
        state=state,
        word=str(STATE_WORDS[state]),
        mark=STATE_MARKS[state],
        is_late=is_open and timezone.localdate(now) > appeal.decide_by,
        ending=_ending(appeal),
        bars=tuple(bar for each in found if each.person == viewer for bar in bars_to_you(each.eligibility.bars)),
        deciders=tuple(name_of(each.person) for each in found if each.eligibility.may_decide),
    )


def _ending(appeal: Appeal) -> str:
    step = next((step for step in appeal.steps.all() if step.kind in ENDS), None)
    if step is None:
        return ""
    words = {"what": step.get_kind_display(), "day": day_word(timezone.localdate(step.at))}
    return _("%(what)s (%(day)s)") % words


def appeal_page(appeal: Appeal, viewer: User, now: datetime) -> AppealPage:
    """One appeal (from `whole_appeals`) as this viewer sees it."""
    deciders, is_own = deciders_of([appeal])[appeal.pk], appeal.evidence.person_id == viewer.pk
    found = next((each.eligibility for each in deciders if each.person == viewer), None)
    names = new_names_of(appeal)
    kinds = {step.kind for step in appeal.steps.all()}
    return AppealPage(
        line=_line(appeal, now, viewer, deciders),
        answer=answer_shown(appeal.evidence, is_own=is_own),
        ground=str(GROUNDS[appeal.ground]),
        events=_events(appeal, names_told=bool(kinds & ENDS)),
        is_own=is_own,
        may_be_withdrawn=is_own and not kinds & {*ENDS, Step.NAMES_ASKED},
        eligibility=found or Eligibility((Bar.MAY_NOT_DECIDE,)),
        others=tuple((name_of(each.person), bars_of_another(each.eligibility.bars)) for each in deciders),
        new_names=names,
        new_names_sentence=new_names_sentence(names) if names else "",
        outcomes=outcomes_open(names),
    )


def _events(appeal: Appeal, *, names_told: bool) -> tuple[Event, ...]:
    """Every step, and every name given anew; which names these were is told once nobody is to be influenced."""
    events = [Event(step.at, _step_sentence(appeal, step), name_of(step.by)) for step in appeal.steps.all()]
    asked = next((step for step in appeal.steps.all() if step.kind == Step.NAMES_ASKED), None)
    if asked is not None:
        rows = Determination.objects.filter(specimen=appeal.evidence.specimen, determined_at__gte=asked.at)
        for row in rows.select_related("determiner", "link"):
            what = _("Named anew: %(said)s.") % {"said": row.said} if names_told else _("Named anew.")
            who = name_of(row.determiner) if row.determiner else row.link.name if row.link else ""
            events.append(Event(row.determined_at, what, who))
    return tuple(sorted(events, key=lambda event: event.at))


def _step_sentence(appeal: Appeal, step: AppealStep) -> str:
    sentences = [str(STEP_SENTENCES[Step(step.kind)])]
    if step.kind == Step.RECEIVED:
        sentences.append(_("It is decided by %(day)s.") % {"day": day_word(appeal.decide_by)})
    if step.words:
        sentences.append(_("Reasons: %(words)s") % {"words": step.words})
    if step.exception:
        sentences.append(
            _("Decided by somebody who had a part in the question, since nobody else could: %(why)s")
            % {"why": step.exception}
        )
    return " ".join(sentences)


@dataclass(frozen=True)
class ChangeLine:
    """What a decision about a plant changed for somebody, as they were told."""

    at: datetime
    sentences: tuple[str, ...]


def changes_told(person: User, most: int = 20) -> list[ChangeLine]:
    """The latest decisions about plants that this person answered, whoever appealed."""
    rows = Notice.objects.filter(person=person, kind__in=NOTICE_SENTENCES).order_by("-happened_at", "-id")[:most]
    return [ChangeLine(row.happened_at, tuple(notice_lines(row.kind, row.facts))) for row in rows]


def plants_to_name_anew(person: User) -> list[Appeal]:
    """Undecided appeals whose plant this person may name anew and has not; empty without the permission."""
    if not person.has_perm(NAME_ANEW):
        return []
    own = Determination.objects.filter(
        specimen=OuterRef("evidence__specimen"), determiner=person, determined_at__gte=OuterRef("asked_at")
    )
    asked = AppealStep.objects.filter(appeal=OuterRef("pk"), kind=Step.NAMES_ASKED.value).values("at")[:1]
    rows = Appeal.objects.waiting_for_names().exclude(evidence__person=person)
    return list(rows.annotate(asked_at=Subquery(asked)).filter(~Exists(own)).order_by("decide_by", "id"))
