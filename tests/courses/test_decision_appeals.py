"""Appeals against decisions about certificates (CP-16): made, acknowledged, tracked, decided by somebody else."""

from datetime import timedelta

import pytest
import time_machine
from django.db import IntegrityError, transaction
from django.urls import reverse
from django.utils import timezone
from django.utils.formats import date_format

from assessments.queries.standings import standings_of
from courses.actions.certificates import NotPossibleNow, NotYet, decline, issue_certificate, record_event
from courses.actions.conflicts import declare_conflict
from courses.actions.decision_appeals import (
    AlreadyEnded,
    AppealRefused,
    appeal_decision,
    decide_appeal,
    take_back_appeal,
)
from courses.actions.reminders import remind
from courses.models import Application, Certificate, DecisionAppeal, Letter, Person
from courses.queries.certificates import certificate_lines
from courses.queries.decision_appeals import appeal_lines, declined_of, steps_of
from courses.rules.certification import Obstacle, State
from courses.rules.decision_appeals import Bar
from courses.rules.life import StepRefusal
from tests.courses.markup import faults
from tests.courses.pages import same_queries
from tests.factories.certificates import make_application, make_certificate
from tests.factories.people import make_person

MINE = reverse("courses:certificates_mine")
LIST = reverse("courses:decision_appeals")


def text(answer) -> str:
    return " ".join(answer.content.decode().split())


def url(name: str, *args: object) -> str:
    return reverse(f"courses:{name}", args=args)


@pytest.fixture
def other(school) -> Person:
    """An organiser with no part in anything."""
    return make_person("Otto Other", "organiser")


@pytest.fixture
def refused_application(application, organiser) -> Application:
    return decline(application, organiser, "Sit one more", now=timezone.now())


@pytest.fixture
def held(participant, standard, organiser) -> Certificate:
    return make_certificate(participant, standard, organiser)


def happened(certificate: Certificate, kind: str, by: Person, **more: object):
    """A step of a certificate, as what can be appealed."""
    event = record_event(certificate, kind, by, "Seen with the wrong plant", now=timezone.now(), **more)
    return steps_of(Certificate.objects.get(pk=certificate.pk), timezone.now())[event.pk]


def appealed(taken, words: str = "It was not me.") -> DecisionAppeal:
    return appeal_decision(taken, words, now=timezone.now())


def decided(appeal: DecisionAppeal, by: Person, *, upheld: bool) -> DecisionAppeal:
    return decide_appeal(appeal, by, upheld=upheld, reasons="It was somebody else.", now=timezone.now())


def status(certificate: Certificate) -> str:
    fresh = Certificate.objects.select_related("person__user", "standard").get(pk=certificate.pk)
    return certificate_lines([fresh], timezone.now())[0].status


class TestDeclined:
    """An application that was declined."""

    def test_cp_16_from_the_own_page_to_the_appeal_and_its_acknowledgement(
        self, signed_in, participant, refused_application, other, organiser
    ) -> None:
        client, address = signed_in(participant), url("application_appeal", refused_application.pk)
        page = text(client.get(MINE))
        assert "Sit one more" in page
        assert address in page
        shown = client.get(address)
        assert faults(shown.content.decode()) == []
        until = timezone.localdate() + timedelta(days=refused_application.standard.appeal_days)
        assert date_format(until, "DATE_FORMAT") in text(shown)
        assert client.post(address, {"words": "  "}).status_code == 422
        assert not DecisionAppeal.objects.exists()
        answer = client.post(address, {"words": "I sat all of them."}, follow=True)
        made = DecisionAppeal.objects.get()
        assert answer.redirect_chain == [(url("decision_appeal", made.key), 302)]
        assert made.decide_by == timezone.localdate() + timedelta(days=refused_application.standard.appeal_decided_days)
        assert date_format(made.decide_by, "DATE_FORMAT") in text(answer)
        assert Letter.objects.get(kind="decision_appeal_received").to == participant.user.email
        assert Letter.objects.get(kind="decision_appeal").to == other.user.email  # and not to who declined
        assert url("decision_appeal", made.key) in text(client.get(MINE))
        assert client.post(address, {"words": "Again"}).url == url("decision_appeal", made.key)
        assert DecisionAppeal.objects.count() == 1

    def test_cp_16_who_declined_does_not_decide(self, signed_in, refused_application, organiser, other) -> None:
        made = appealed(declined_of(refused_application.person, timezone.now())[0])
        with pytest.raises(AppealRefused, match="You took the decision"):
            decided(made, organiser, upheld=False)
        client, page = signed_in(organiser), url("decision_appeal", made.key)
        shown = text(client.get(page))
        assert "You took the decision that it speaks against." in shown
        assert "May decide: Otto Other" in shown
        said = {"outcome": "dismissed", "reasons": "No"}
        answer = client.post(url("decision_appeal_decide", made.key), said)
        assert answer.status_code == 409
        assert DecisionAppeal.objects.get().ended_at is None

    def test_upheld_the_application_stands_again_and_is_decided_as_always(
        self, signed_in, passed, organiser, other, participant
    ) -> None:
        declined_now = decline(passed, organiser, "Not yet", now=timezone.now())
        made = appealed(declined_of(participant, timezone.now())[0])
        ended = decided(made, other, upheld=True)
        again = Application.objects.undecided().get()
        assert ended.led_to == again
        assert (again.statement, again.agreed_at) == (True, declined_now.agreed_at)
        assert again.pk != declined_now.pk
        declined_now.refresh_from_db()
        assert declined_now.granted is False  # what was decided stays on record
        assert issue_certificate(again, other, now=timezone.now()).person == participant
        page = text(signed_in(participant).get(url("decision_appeal", made.key)))
        assert "Upheld: the application stands before the organisers again." in page
        assert "It was somebody else." in page
        letter = Letter.objects.get(kind="decision_appeal_decided")
        assert "It was somebody else." in letter.text
        assert letter.to == participant.user.email

    def test_upheld_after_the_person_applied_again_there_is_one_application(
        self, refused_application, other, participant, standard
    ) -> None:
        made = appealed(declined_of(participant, timezone.now())[0])
        newer = make_application(participant, standard)
        assert decided(made, other, upheld=True).led_to == newer
        assert Application.objects.undecided().count() == 1

    def test_dismissed_it_is_over(self, signed_in, refused_application, other, participant) -> None:
        made = appealed(declined_of(participant, timezone.now())[0])
        decided(made, other, upheld=False)
        assert not Application.objects.undecided().exists()
        with pytest.raises(AlreadyEnded):
            decided(made, other, upheld=True)
        with pytest.raises(AlreadyEnded):
            take_back_appeal(made, now=timezone.now())
        assert "Dismissed: the decision stands." in text(signed_in(participant).get(url("decision_appeal", made.key)))

    def test_after_the_last_day_it_is_refused_with_that_day(self, signed_in, refused_application, participant) -> None:
        days = refused_application.standard.appeal_days
        with time_machine.travel(timezone.now() + timedelta(days=days + 1), tick=False):
            client = signed_in(participant)
            address = url("application_appeal", refused_application.pk)
            assert address not in text(client.get(MINE))
            answer = client.post(address, {"words": "Late"})
            assert answer.status_code == 409
            assert "The last day to appeal this was" in text(answer)
            with pytest.raises(AppealRefused):
                appealed(declined_of(participant, timezone.now())[0])
        assert not DecisionAppeal.objects.exists()

    def test_granted_taken_back_and_open_applications_offer_no_appeal(
        self, signed_in, participant, passed, organiser
    ) -> None:
        client, address = signed_in(participant), url("application_appeal", passed.pk)
        assert client.get(address).status_code == 404
        issue_certificate(passed, organiser, now=timezone.now())
        assert client.get(address).status_code == 404
        assert declined_of(participant, timezone.now()) == []


class TestCertificates:
    """What happened to a certificate."""

    def test_cp_16_a_suspension_is_appealed_from_the_page_and_lifted_when_the_appeal_is_upheld(
        self, signed_in, held, participant, organiser, other
    ) -> None:
        record_event(held, "suspended", organiser, "Seen with the wrong plant", now=timezone.now())
        client, page = signed_in(participant), url("certificate", held.number)
        address = url("event_appeal", held.number, held.events.get().pk)
        assert address in text(client.get(page))
        client.post(address, {"words": "It was not me."})
        made = DecisionAppeal.objects.get()
        assert status(held) == "suspended"  # appealing changes nothing by itself
        decided(made, other, upheld=True)
        assert [each.kind for each in held.events.all()] == ["suspended", "lifted"]
        assert status(held) == "review"  # current again; there are no tests behind it here
        assert "Your appeal against this" in text(client.get(page))
        assert url("event_appeal", held.number, held.events.last().pk) not in text(client.get(page))

    def test_an_appeal_upheld_after_the_suspension_was_lifted_changes_nothing_more(
        self, held, organiser, other
    ) -> None:
        made = appealed(happened(held, "suspended", organiser))
        record_event(held, "lifted", organiser, "Looked at again", now=timezone.now())
        assert decided(made, other, upheld=True).led_to is None
        assert held.events.count() == 2

    def test_a_step_taken_in_the_very_moment_is_answered_in_a_sentence_and_decides_nothing(
        self, signed_in, held, organiser, other, monkeypatch
    ) -> None:
        made = appealed(happened(held, "suspended", organiser))

        def too_late(*args: object, **kwargs: object) -> None:
            raise NotPossibleNow(StepRefusal.IS_NOT_SUSPENDED, State.CURRENT)

        monkeypatch.setattr("courses.actions.decision_appeals.lift_on_appeal", too_late)
        said = {"outcome": "upheld", "reasons": "It was somebody else."}
        answer = signed_in(other).post(url("decision_appeal_decide", made.key), said)
        assert answer.status_code == 409
        assert "It is not suspended" in text(answer)
        assert DecisionAppeal.objects.get().ended_at is None

    def test_a_withdrawal_stays_and_a_new_certificate_may_take_its_place(
        self, passed, participant, organiser, other
    ) -> None:
        first = issue_certificate(passed, organiser, now=timezone.now())
        made = appealed(happened(first, "withdrawn", organiser))
        decided(made, other, upheld=True)
        assert status(first) == "withdrawn"
        second = issue_certificate(Application.objects.undecided().get(), other, now=timezone.now())
        assert second.number != first.number
        assert second.valid_until == first.valid_until  # the pass is the same, and nothing is extended
        assert [status(each) for each in (first, second)] == ["withdrawn", "current"]

    def test_a_narrowing_stays_and_the_new_certificate_follows_the_old_one(
        self, passed, participant, organiser, other
    ) -> None:
        first = issue_certificate(passed, organiser, now=timezone.now())
        one = first.facts["pairs"][0]
        Certificate.objects.update(facts={**first.facts, "pairs": [one, {**one, "key": "pair-2"}]})
        first.refresh_from_db()
        made = appealed(happened(first, "narrowed", organiser, keeping=[one["key"]]))
        decided(made, other, upheld=True)
        second = issue_certificate(Application.objects.undecided().get(), other, now=timezone.now())
        assert second.valid_until == first.valid_until
        assert [each.kind for each in first.events.all()] == ["narrowed", "renewed"]

    def test_without_an_appeal_old_evidence_renews_nothing(self, passed, participant, organiser, other) -> None:
        first = issue_certificate(passed, organiser, now=timezone.now())
        again = make_application(participant, passed.standard)
        Application.objects.filter(pk=again.pk).update(renews=first)
        with pytest.raises(NotYet) as refused:
            issue_certificate(again, other, now=timezone.now())
        assert refused.value.certification.obstacles == (Obstacle.RENEWED_ON_OLD_EVIDENCE,)

    def test_an_upheld_appeal_is_no_way_around_the_evidence(self, held, participant, organiser, other) -> None:
        made = appealed(happened(held, "withdrawn", organiser))
        decided(made, other, upheld=True)
        with pytest.raises(NotYet) as refused:
            issue_certificate(Application.objects.undecided().get(), other, now=timezone.now())
        assert Obstacle.EVIDENCE_MISSING in refused.value.certification.obstacles

    def test_cp_16_appealing_alone_changes_no_standing(self, passed, participant, standard, organiser, other) -> None:
        def standing() -> object:
            return standings_of([participant.user_id], standard, timezone.now())[participant.user_id]

        first, before = issue_certificate(passed, organiser, now=timezone.now()), standing()
        taken = happened(first, "suspended", organiser)
        decided(appealed(taken), other, upheld=False)
        assert standing() == before
        assert status(first) == "suspended"


class TestWhoDecides:
    """Somebody without any part in it, or the least involved, and then it is said."""

    def test_where_everybody_is_tied_the_one_who_did_not_decide_may_and_the_page_says_so(
        self, signed_in, held, participant, organiser, other
    ) -> None:
        declare_conflict(other, participant, "A cousin", timezone.localdate())
        made = appealed(happened(held, "suspended", organiser))
        assert "You are involved." in text(signed_in(other).get(url("decision_appeal", made.key)))
        assert decided(made, other, upheld=True).exception == Bar.TIED.value
        assert status(held) == "review"  # current again; there are no tests behind it here
        said = text(signed_in(participant).get(url("decision_appeal", made.key)))
        assert "declared a conflict of interest: nobody else in the school could decide." in said

    def test_in_a_school_of_one_the_same_person_decides_and_it_is_said(
        self, signed_in, held, participant, organiser
    ) -> None:
        made = appealed(happened(held, "suspended", organiser))
        assert decided(made, organiser, upheld=False).exception == Bar.DECIDED_IT.value
        said = text(signed_in(participant).get(url("decision_appeal", made.key)))
        assert "Whoever decided took the decision that was appealed: nobody else in the school could decide." in said

    def test_nobody_decides_their_own(self, organiser, other, standard) -> None:
        own = make_certificate(organiser, standard, other)
        made = appealed(happened(own, "suspended", other))
        third = make_person("Thea Third", "organiser")
        line = appeal_lines(DecisionAppeal.objects.whole(), timezone.now())[0]
        assert line.may_decide == [third]
        with pytest.raises(AppealRefused, match="It is your own appeal"):
            decided(made, organiser, upheld=True)


class TestPages:
    """The list, one appeal, and who sees them."""

    def test_an_empty_list_says_so_and_a_full_one_shows_day_and_deciders(
        self, signed_in, held, organiser, other
    ) -> None:
        client = signed_in(other)
        assert "Nothing to decide" in text(client.get(LIST))
        made = appealed(happened(held, "suspended", organiser))
        answer = client.get(LIST)
        assert faults(answer.content.decode()) == []
        assert f"to be decided by {date_format(made.decide_by, 'DATE_FORMAT')}" in text(answer)
        assert "May decide: Otto Other" in text(answer)
        assert "1 appeal against a decision" in text(client.get(reverse("courses:home")))
        decided(made, other, upheld=False)
        assert [len(client.get(LIST).context[part]) for part in ("waiting", "done")] == [0, 1]

    def test_a_day_that_is_past_is_said_to_both(self, signed_in, held, participant, organiser, other) -> None:
        made = appealed(happened(held, "suspended", organiser))
        with time_machine.travel(timezone.now() + timedelta(days=400), tick=False):
            assert "The day is past: decide it now" in text(signed_in(other).get(LIST))
            said = text(signed_in(participant).get(url("decision_appeal", made.key)))
            assert "That day is past." in said

    def test_bad_input_is_answered_in_sentences_and_decides_nothing(self, signed_in, held, organiser, other) -> None:
        made = appealed(happened(held, "suspended", organiser))
        client, decide = signed_in(other), url("decision_appeal_decide", made.key)
        for said, sentence in (
            ({}, "Choose one of the two."),
            ({"outcome": "upheld", "reasons": " "}, "Write down your reasons"),
            ({"outcome": "maybe", "reasons": "x"}, "maybe"),
        ):
            answer = client.post(decide, said)
            assert answer.status_code == 422
            assert sentence in text(answer)
            assert faults(answer.content.decode()) == []
        assert DecisionAppeal.objects.get().ended_at is None
        done = client.post(decide, {"outcome": "dismissed", "reasons": "It stands."}, follow=True)
        assert "It is decided, and the person is told." in text(done)
        assert "Decided by Otto Other" in text(done)

    def test_one_takes_one_s_own_back_until_it_is_decided(self, signed_in, held, participant, organiser, other) -> None:
        made = appealed(happened(held, "suspended", organiser))
        back = url("decision_appeal_take_back", made.key)
        assert signed_in(other).post(back).status_code == 404
        answer = signed_in(participant).post(back, follow=True)
        assert "Your appeal is taken back." in text(answer)
        assert signed_in(participant).post(back, follow=True).status_code == 200
        with pytest.raises(AlreadyEnded):
            decided(made, other, upheld=True)
        assert DecisionAppeal.objects.get().outcome == "taken_back"

    def test_strangers_sign_in_and_nobody_else_sees_it(
        self, client, signed_in, held, participant, organiser, stranger, tutor, assessor, other
    ) -> None:
        event = happened(held, "suspended", organiser)
        made = appealed(event)
        pages = [url("decision_appeal", made.key), url("event_appeal", held.number, event.event.pk), LIST]
        posts = [url("decision_appeal_decide", made.key), url("decision_appeal_take_back", made.key)]
        for address in pages:
            assert client.get(address).status_code == 302
        for address in posts:
            assert client.post(address, {"outcome": "upheld", "reasons": "x"}).status_code == 302
        for person in (stranger, tutor, assessor):
            one = signed_in(person)
            assert [one.get(address).status_code for address in pages] == [404, 404, 403]
            assert [one.post(address, {"words": "x"}).status_code for address in posts] == [403, 404]
        assert signed_in(organiser).get(pages[1]).status_code == 404  # it is not theirs to appeal
        assert DecisionAppeal.objects.get().ended_at is None

    def test_the_list_asks_as_often_for_many(self, signed_in, participant, standard, organiser, other) -> None:
        def one_more(number: int) -> None:
            person = make_person(f"Ann Number {number}")
            cert = make_certificate(person, standard, organiser, number=f"2026-02{number}0")
            appealed(happened(cert, "suspended", organiser))

        one_more(1)
        client = signed_in(other)
        assert same_queries(client, LIST, lambda: [one_more(number) for number in (2, 3, 4)])

    def test_one_decision_is_appealed_once_whatever_is_pressed(self, held, organiser) -> None:
        taken = happened(held, "suspended", organiser)
        appealed(taken)
        with pytest.raises(AppealRefused, match="already"):
            appealed(taken)  # as it was seen before the first
        with pytest.raises(IntegrityError), transaction.atomic():
            DecisionAppeal.objects.create(
                person=held.person, words="x", received_at=timezone.now(), decide_by=timezone.localdate()
            )


def test_whoever_may_decide_is_reminded_in_the_last_week_and_once(held, organiser, other, standard) -> None:
    made = appealed(happened(held, "suspended", organiser))
    Letter.objects.all().delete()
    last_week = made.received_at + timedelta(days=standard.appeal_decided_days - 7)
    assert remind(last_week - timedelta(days=1)) == 0
    assert [remind(last_week), remind(last_week + timedelta(days=3))] == [1, 0]
    letter = Letter.objects.get()
    assert letter.to == other.user.email
    assert "The appeal of Pat Participant is to be answered by" in letter.text
    assert url("decision_appeal", made.key) in letter.text
    decided(made, other, upheld=False)
    assert remind(last_week + timedelta(days=6)) == 0
