"""Setting papers: to a blueprint, for named people, and only where the bank can meet it."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from assessments.models import Paper, Seat, Standard
from assessments.queries.bank import pairs_of_paper, quotas_for, shares_of
from assessments.queries.drawing import NAME_AND_DECIDE, Missing, draw_paper
from assessments.queries.flora import the_flora
from assessments.queries.people import name_of
from assessments.queries.sentences.shortfalls import missing_sentences
from assessments.queries.standards import standard_facts
from assessments.rules.kinds import catalogue
from species.models import Pair

from .notices import note_for
from .refusals import Refused

MOST_QUESTIONS = 60


class PaperRefused(Refused):
    """The paper was not set."""


class BankTooSmall(PaperRefused):
    """The bank does not hold what the paper asks for, for somebody who is to sit it."""


@dataclass(frozen=True)
class PaperPlan:
    """What a setter decides. `each_stage`: every required stage of each dangerous plant, where it fits in.

    `kinds`: how many of the questions are of each other kind than name it and decide, by key of the kind.
    """

    title: str
    standard: Standard
    pairs: Collection[Pair]
    questions: int
    opens_at: datetime
    closes_at: datetime | None = None
    minutes: int | None = None
    each_stage: bool = True
    kinds: Mapping[str, int] = field(default_factory=dict)

    @property
    def counting(self) -> int:
        """How many questions are left for name it and decide."""
        return self.questions - sum(self.kinds.values())


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
    _check_plan(plan)
    with transaction.atomic():
        paper = Paper.objects.create(
            title=plan.title.strip(),
            standard=plan.standard,
            questions=plan.questions,
            kinds={key: count for key, count in plan.kinds.items() if count},
            minutes=plan.minutes,
            opens_at=plan.opens_at,
            closes_at=plan.closes_at,
            blueprint={**_quotas(plan), "each_stage": plan.each_stage},
            seed=seed,
            set_by=set_by,
            set_at=now,
        )
        paper.pairs.set(plan.pairs)
        if check_bank:
            _check_bank(paper, people)
        add_sitters(paper, people, now)
    return paper


def _check_plan(plan: PaperPlan) -> None:
    known = set(plan.standard.pairs.values_list("pair_id", flat=True))
    if plan.standard.in_use_since is None:
        raise PaperRefused(_("This standard is a draft: put it to use before a paper is set for it."))
    if not any(pair.is_dangerous for pair in plan.pairs):
        raise PaperRefused(_("Choose at least one dangerous pair."))
    strange = [pair.key for pair in plan.pairs if pair.pk not in known]
    if strange:
        raise PaperRefused(
            _("The standard does not ask for these pairs: %(pairs)s. Leave them out, or choose another.")
            % {"pairs": ", ".join(strange)}
        )
    if not 1 <= plan.questions <= MOST_QUESTIONS:
        raise PaperRefused(_("A paper has from 1 to %(most)s questions.") % {"most": MOST_QUESTIONS})
    _check_kinds(plan)
    if plan.closes_at is not None and plan.closes_at <= plan.opens_at:
        raise PaperRefused(_("The paper would close before it opens: look at the dates."))


def _check_kinds(plan: PaperPlan) -> None:
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


def _quotas(plan: PaperPlan) -> dict[str, int]:
    dangerous = [pair for pair in plan.pairs if pair.is_dangerous]
    mistaken, gathered = {p.mistaken_id for p in dangerous}, {p.gathered_id for p in dangerous}
    return quotas_for(plan.counting, len(mistaken), len(gathered - mistaken) or 1)


def _check_bank(paper: Paper, people: Collection[User]) -> None:
    """Draw the paper for everybody on trial; nothing of it is kept."""
    facts = standard_facts(paper.standard)
    pairs = pairs_of_paper(paper, facts)
    shares = shares_of([person.pk for person in people], facts, pairs)
    flora, short = the_flora(), dict[str, list[str]]()
    for person in people:
        share = shares[person.pk]
        drawn = draw_paper(paper, share, pairs, paper.seed)
        if isinstance(drawn, Missing):
            for sentence in missing_sentences(drawn, flora):
                short.setdefault(sentence, []).append(name_of(person))
    if short:
        raise BankTooSmall(
            *(
                sentence if len(names) == len(people) else f"{sentence} ({', '.join(names)})"
                for sentence, names in short.items()
            )
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
