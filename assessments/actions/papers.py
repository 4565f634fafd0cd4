"""Setting papers: to a blueprint, for named people, and only where the bank can meet it."""

from collections.abc import Collection, Iterable, Sequence
from datetime import datetime, timedelta

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from assessments.models import Paper, Seat
from assessments.queries.drawing import NAME_AND_DECIDE
from assessments.queries.paper_outlook import MOST_QUESTIONS, Outlook, outlook_of
from assessments.queries.paper_plan import PaperPlan, plan_of
from assessments.queries.people import name_of
from assessments.rules.kinds import catalogue

from .notices import note_for
from .refusals import Refused

LONGEST_AHEAD = timedelta(days=366)
"""A paper that opens later than this after it is set has most likely the wrong year; a choice."""


class PaperRefused(Refused):
    """The paper was not set."""


class BankTooSmall(PaperRefused):
    """The bank does not hold what the paper asks for, for somebody who is to sit it. `outlook` says what could be."""

    def __init__(self, outlook: Outlook) -> None:
        super().__init__(*(str(lack) for lack in outlook.lacks))
        self.outlook = outlook


def set_paper(
    plan: PaperPlan,
    people: Collection[User],
    set_by: User,
    seed: int,
    now: datetime,
    *,
    check_bank: bool = True,
) -> Paper:
    """Set a paper for these people. Raises PaperRefused, or BankTooSmall naming what is missing for whom.

    `seed` has to be hard to guess: with it and the bank, a paper could be foretold. `check_bank` may be left
    out where papers are set long before the bank is filled; whoever opens one is checked again.
    """
    refuse_plan(plan, now)
    with transaction.atomic():
        paper = Paper.objects.create(**plan.columns, seed=seed, set_by=set_by, set_at=now)
        paper.pairs.set(plan.pairs)
        if check_bank:
            refuse_shortfall(plan, list(people), seed)
        add_sitters(paper, people, now)
    return paper


def refuse_shortfall(plan: PaperPlan, people: Sequence[User], seed: int) -> None:
    """Return where the bank is enough for each of these people; raises BankTooSmall."""
    outlook = outlook_of(plan, people, seed)
    if not outlook.is_possible:
        raise BankTooSmall(outlook)


def refuse_plan(plan: PaperPlan, now: datetime) -> None:
    """Return where the plan makes sense by itself, whatever the bank holds; raises PaperRefused."""
    known = set(plan.standard.pairs.values_list("pair_id", flat=True))
    if plan.standard.in_use_since is None:
        raise PaperRefused(_("This standard is a draft: put it to use before a paper is set for it."))
    if not any(pair.is_dangerous for pair in plan.pairs):
        raise PaperRefused(_("Choose at least one dangerous pair."))
    strange = [f"{pair.gathered.name} – {pair.mistaken.name}" for pair in plan.pairs if pair.pk not in known]
    if strange:
        raise PaperRefused(
            _("The standard does not ask for these pairs: %(pairs)s. Leave them out, or choose another.")
            % {"pairs": ", ".join(strange)}
        )
    if not 1 <= plan.questions <= MOST_QUESTIONS:
        raise PaperRefused(_("A paper has from 1 to %(most)s questions.") % {"most": MOST_QUESTIONS})
    _refuse_numbers(plan)
    _refuse_dates(plan, now)


def _refuse_numbers(plan: PaperPlan) -> None:
    known = {kind.key for kind in catalogue.KINDS} - {NAME_AND_DECIDE}
    strange = sorted(set(plan.kinds) - known)
    if strange:
        raise PaperRefused(_("There is no such kind of question: %(kinds)s.") % {"kinds": ", ".join(strange)})
    if any(count < 0 for count in plan.kinds.values()):
        raise PaperRefused(_("Nobody can be asked fewer than no questions of a kind: write 0 or more."))
    if plan.counting < 1:
        raise PaperRefused(
            _("At least one question has to be “name it and decide”: only those count. Ask fewer of the other kinds.")
        )
    if any(number < 0 for number in (plan.dangerous_each or 0, plan.edible_each or 0, *plan.lowered.values())):
        raise PaperRefused(_("Of no plant fewer than none can be asked: write 0 or more."))


def _refuse_dates(plan: PaperPlan, now: datetime) -> None:
    if plan.opens_at > now + LONGEST_AHEAD:
        raise PaperRefused(_("The paper would open more than a year from now: look at the year."))
    if plan.closes_at is None:
        return
    if plan.closes_at <= plan.opens_at:
        raise PaperRefused(_("The paper would close before it opens: look at the dates."))
    if plan.closes_at <= now:
        raise PaperRefused(_("The paper would be closed already: give it a later end, or none."))
    if plan.minutes is not None and timedelta(minutes=plan.minutes) > plan.closes_at - plan.opens_at:
        raise PaperRefused(
            _("Nobody could use %(minutes)s minutes: the paper is open for less. Close it later or give less time.")
            % {"minutes": plan.minutes}
        )


def add_sitters(paper: Paper, people: Iterable[User], now: datetime) -> list[Seat]:
    """Seats for these people, with the dates of the paper, and word to each. Who has a seat keeps it."""
    with transaction.atomic():
        seated = set(paper.seats.values_list("person_id", flat=True))
        wanted = {person.pk: person for person in people if person.pk not in seated}
        if paper.set_by_id in wanted:
            raise PaperRefused(_("Nobody sits a paper that they set: ask somebody else to set it."))
        seats = Seat.objects.bulk_create(
            Seat(paper=paper, person=person, opens_at=paper.opens_at, closes_at=paper.closes_at)
            for person in wanted.values()
        )
        note_for(wanted, "paper_set", now, paper=paper.key, title=paper.title, opens_at=paper.opens_at.isoformat())
    return seats


def add_late_sitters(paper: Paper, people: Collection[User], now: datetime) -> list[Seat]:
    """Seats for people who come to a paper after it was set, drawn to the same blueprint as everybody's.

    Raises PaperRefused where it is over or they have one already, and BankTooSmall.
    """
    if paper.withdrawn_at is not None:
        raise PaperRefused(_("This paper was withdrawn: nobody can sit it any more."))
    if paper.closes_at is not None and paper.closes_at <= now:
        raise PaperRefused(_("This paper is closed already: set another one for whoever came too late."))
    seated = set(paper.seats.filter(person__in=people).values_list("person_id", flat=True))
    if seated:
        names = ", ".join(name_of(person) for person in people if person.pk in seated)
        raise PaperRefused(_("There is a seat already for: %(names)s. Leave them out.") % {"names": names})
    with transaction.atomic():
        seats = add_sitters(paper, people, now)
        refuse_shortfall(plan_of(paper), list(people), paper.seed)
    return seats
