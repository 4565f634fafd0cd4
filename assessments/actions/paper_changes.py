"""Changing or withdrawing a paper before it opens; afterwards it stays as it is, so that all papers stay comparable."""

from collections.abc import Collection
from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from assessments.models import Paper, Seat, Sitting
from assessments.queries.paper_plan import PaperPlan

from .notices import note_for
from .papers import PaperRefused, refuse_plan, refuse_shortfall


class TooLateToChange(PaperRefused):
    """The paper is open, or was, or is withdrawn."""


def change_paper(paper: Paper, plan: PaperPlan, by: User, now: datetime) -> Paper:
    """Set a paper anew for whoever has a seat in it, with the same seed. Raises PaperRefused and BankTooSmall.

    Who was granted a later end by themselves keeps it, unless the paper itself now closes later.
    """
    refuse_plan(plan, now)
    with transaction.atomic():
        locked = _locked(paper)
        refuse_change(locked, by, now)
        seats = list(locked.seats.select_related("person").order_by("pk"))
        moved = (locked.opens_at, locked.closes_at, locked.title) != (plan.opens_at, plan.closes_at, plan.title.strip())
        granted = {seat.pk for seat in seats if seat.closes_at != locked.closes_at}
        for name, value in plan.columns.items():
            setattr(locked, name, value)
        locked.save()
        locked.pairs.set(plan.pairs)
        refuse_shortfall(plan, [seat.person for seat in seats], locked.seed)
        for seat in seats:
            seat.opens_at, seat.closes_at = locked.opens_at, _end_of(seat, locked, is_granted=seat.pk in granted)
        Seat.objects.bulk_update(seats, ["opens_at", "closes_at"])
        if moved:
            _tell(seats, "paper_changed", locked, now)
    return locked


def withdraw_paper(paper: Paper, by: User, why: str, now: datetime) -> None:
    """Nobody sits this paper; who had a seat is told why. The paper stays on record. Raises PaperRefused."""
    reason = " ".join(why.split())
    if not reason:
        raise PaperRefused(_("Say why the paper is withdrawn: those who were to sit it are told."))
    with transaction.atomic():
        locked = _locked(paper)
        refuse_change(locked, by, now)
        locked.withdrawn_at, locked.withdrawn_by, locked.withdrawn_why = now, by, reason[:200]
        locked.save(update_fields=["withdrawn_at", "withdrawn_by", "withdrawn_why"])
        seats = list(locked.seats.all())
        _tell(seats, "paper_withdrawn", locked, now, why=locked.withdrawn_why)
        locked.seats.all().delete()


def refuse_change(paper: Paper, by: User, now: datetime) -> None:
    """Return where this person may still change or withdraw the paper; raises PaperRefused."""
    if paper.withdrawn_at is not None:
        raise TooLateToChange(_("This paper was withdrawn: set a new one."))
    if now >= paper.opens_at or Sitting.objects.filter(seat__paper=paper).exists():
        raise TooLateToChange(
            _("This paper has opened: it stays as it is, so that everybody sits the same. Set another one beside it.")
        )
    if paper.seats.filter(person=by).exists():
        raise PaperRefused(_("You are to sit this paper: ask somebody else to change it."))


def _locked(paper: Paper) -> Paper:
    """The paper and its seats, locked for the rest of the transaction: nobody opens theirs meanwhile."""
    locked = Paper.objects.select_for_update().get(pk=paper.pk)
    list(locked.seats.select_for_update())
    return locked


def _end_of(seat: Seat, paper: Paper, *, is_granted: bool) -> datetime | None:
    if not is_granted or paper.closes_at is None or seat.closes_at is None:
        return paper.closes_at
    return max(seat.closes_at, paper.closes_at)


def _tell(seats: Collection[Seat], kind: str, paper: Paper, now: datetime, **facts: str) -> None:
    note_for(
        [seat.person_id for seat in seats],
        kind,
        now,
        paper=paper.key,
        title=paper.title,
        opens_at=paper.opens_at.isoformat(),
        **facts,
    )
