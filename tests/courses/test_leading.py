"""Who could lead a walk, steps on the way, leave to lead, what is asked, and naming leaders."""

import json
from datetime import timedelta

import pytest
from django.core.management import CommandError, call_command
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone
from django.utils.formats import date_format

from courses.actions.leading import NotOpen, name_leaders
from courses.models import (
    Availability,
    LeadingGrant,
    Letter,
    Requirement,
    RequirementRecord,
    WalkPart,
)
from courses.queries.readiness import leader_readiness, readiness_for
from courses.queries.walk_proposal import proposal
from courses.queries.walks import walk_page
from tests.factories.courses import SiteFactory, make_meeting
from tests.factories.people import make_person


def ready_person(name: str, seen_by, *kinds: str):
    """Somebody who has shown these proofs, for ever."""
    person, today = make_person(name, "tutor"), timezone.localdate()
    for kind in kinds:
        RequirementRecord.objects.create(
            person=person, kind=kind, valid_from=today, valid_until=None, seen_by=seen_by, seen_on=today
        )
    return person


def ask_only(*kinds: str) -> None:
    for kind in kinds:
        Requirement.objects.create(key=kind.replace("_", "-"), part="leader", kind="proof", proof=kind, title=kind)


def line_of(walk, person):
    return next(each for each in walk_page(walk, timezone.now()).candidates if each.person == person)


def test_the_pairs_that_can_be_met_are_named_with_their_stage(walk) -> None:
    (pair,) = walk_page(walk, timezone.now()).pairs
    assert (pair.mistaken, pair.stages) == ("badleaf", ("flower",))


def test_whoever_has_not_passed_the_pair_cannot_lead_there(walk, organiser) -> None:
    ask_only("first_aid")
    line = line_of(walk, ready_person("Able", organiser, "first_aid"))
    assert not line.missing
    assert [each.whole for each in line.lacks] == [True]
    assert not line.could_lead


def test_where_nothing_dangerous_is_known_the_requirements_decide(course, organiser) -> None:
    ask_only("first_aid")
    bare = make_meeting(course, days_ahead=20, site=SiteFactory())
    assert line_of(bare, ready_person("Able", organiser, "first_aid")).could_lead
    other = ready_person("Other", organiser, "insurance")
    assert [each.name for each in line_of(bare, other).missing] == ["First aid"]


def test_an_induction_is_for_its_site(course, organiser, site) -> None:
    ask_only("induction")
    person = ready_person("Able", organiser)
    there, elsewhere = make_meeting(course, site=site), make_meeting(course, site=SiteFactory())
    RequirementRecord.objects.create(
        person=person, kind="induction", site=site, valid_from=timezone.localdate(), seen_by=organiser,
        seen_on=timezone.localdate(),
    )  # fmt: skip
    assert readiness_for(there, [person.pk])[person.pk].ready
    assert not readiness_for(elsewhere, [person.pk])[person.pk].ready


def test_whoever_said_no_or_is_elsewhere_could_not(course, organiser) -> None:
    ask_only("first_aid")
    bare = make_meeting(course, days_ahead=20, site=SiteFactory())
    no, busy = (ready_person(name, organiser, "first_aid") for name in ("No", "Busy"))
    Availability.objects.create(person=no, meeting=bare, can_come=False, said_at=timezone.now())
    make_meeting(course, starts_at=bare.starts_at, ends_at=bare.ends_at, leader=busy)
    assert not line_of(bare, no).could_lead
    assert line_of(bare, busy).is_busy


def test_the_proposal_spreads_and_explains_each_gap(course, organiser, site, walk) -> None:
    ask_only("first_aid")
    people = [ready_person(name, organiser, "first_aid") for name in ("Ann", "Ben")]
    for days in (21, 22):
        make_meeting(course, days_ahead=days, site=SiteFactory())
    lines = proposal(timezone.now())
    assert lines[0].person is None
    assert {bar for _person, bar in lines[0].barred} == {"lacks_pairs"}
    assert {line.person for line in lines[1:]} == set(people)


def test_where_nobody_can_be_named_there_is_no_button_to_name_them(signed_in, organiser, walk) -> None:
    ask_only("first_aid")
    ready_person("Ann", organiser, "first_aid")
    page = signed_in(organiser).get(reverse("courses:leaders_proposed")).content.decode()
    assert "Why nobody" in page
    assert "Name those ticked" not in page


def test_naming_writes_to_those_named_and_only_for_what_is_ticked(signed_in, course, organiser) -> None:
    ask_only("first_aid")
    person = ready_person("Ann", organiser, "first_aid")
    one, two = (make_meeting(course, days_ahead=days, site=SiteFactory()) for days in (20, 22))
    client = signed_in(organiser)
    page = client.get(reverse("courses:leaders_proposed")).content.decode()
    assert f'value="{one.key} {person.uuid}" checked' in page
    client.post(reverse("courses:leaders_proposed"), {"walk": [f"{one.key} {person.uuid}"]})
    one.refresh_from_db()
    two.refresh_from_db()
    assert (one.leader, two.leader) == (person, None)
    assert Letter.objects.get(kind="leads").to == person.user.email


def test_nobody_is_named_whom_the_organiser_did_not_see_beside_the_tick(signed_in, course, organiser) -> None:
    ask_only("first_aid")
    walk, ann = make_meeting(course, days_ahead=20, site=SiteFactory()), ready_person("Ann", organiser, "first_aid")
    client, address = signed_in(organiser), reverse("courses:leaders_proposed")
    seen = {"walk": [f"{walk.key} {ann.uuid}"]}
    Availability.objects.create(person=ann, meeting=walk, can_come=False, said_at=timezone.now())
    ready_person("Ben", organiser, "first_aid")
    assert "has changed meanwhile, so nobody was named" in client.post(address, seen, follow=True).content.decode()
    assert "No walk was ticked, so nobody was named." in client.post(address, follow=True).content.decode()
    walk.refresh_from_db()
    assert walk.leader is None


def test_a_walk_that_got_a_leader_meanwhile_names_nobody(course, organiser, tutor) -> None:
    free, taken = make_meeting(course), make_meeting(course, leader=tutor)
    with pytest.raises(NotOpen):
        name_leaders({free.key: organiser, taken.key: organiser}, timezone.now())
    free.refresh_from_db()
    assert free.leader is None


def test_a_step_is_confirmed_by_somebody_else(signed_in, tutor, organiser) -> None:
    url, today = reverse("courses:step_new"), timezone.localdate().isoformat()
    typed = {"person": tutor.pk, "step": "observed", "walked_on": today, "went_well": "on", "note": ""}
    assert "Nobody confirms a step of their own" in signed_in(tutor).post(url, typed).content.decode()
    signed_in(organiser).post(url, typed)
    assert WalkPart.objects.get().confirmed_by == organiser
    ahead = (timezone.localdate() + timedelta(days=1)).isoformat()
    assert signed_in(organiser).post(url, {**typed, "walked_on": ahead}).status_code == 422


def test_a_step_is_written_down_on_the_day_of_its_walk(signed_in, tutor, organiser) -> None:
    client, url = signed_in(organiser), reverse("courses:step_new")
    walk = make_meeting(None, days_ahead=-9, is_walk=True)
    day, typed = timezone.localdate(walk.starts_at), {"person": tutor.pk, "step": "co_led", "went_well": "on"}
    assert f"{date_format(day, 'DATE_FORMAT')}: {walk.title}" in client.get(url).content.decode()
    other = {"meeting": walk.pk, "walked_on": timezone.localdate().isoformat()}
    refused = client.post(url, {**typed, **other})
    assert f"That walk was on {date_format(day, 'DATE_FORMAT')}" in refused.content.decode()
    assert "Say on which day, or choose a walk above." in client.post(url, typed).content.decode()
    assert not WalkPart.objects.exists()
    client.post(url, {**typed, "meeting": walk.pk})
    assert WalkPart.objects.get().walked_on == day
    again = client.post(url, {**typed, "meeting": walk.pk}).content.decode()
    assert "This step at this walk is written down already." in again


def test_leave_to_lead_is_given_for_months_and_taken_back(signed_in, organiser, tutor, walk) -> None:
    Requirement.objects.create(key="leave", part="leader", kind="grant", title="Leave")
    client, today = signed_in(organiser), timezone.localdate()
    month = timezone.localdate(walk.starts_at).month
    typed = {"person": tutor.pk, "region": "North", "months": [month], "valid_from": today.isoformat()}
    client.post(reverse("courses:grant_new"), typed)
    assert readiness_for(walk, [tutor.pk])[tutor.pk].ready
    client.post(reverse("courses:grant_end", args=[LeadingGrant.objects.get().pk]))
    assert not readiness_for(walk, [tutor.pk])[tutor.pk].ready
    own = client.post(reverse("courses:grant_new"), {**typed, "person": organiser.pk})
    assert "Nobody gives leave to themselves" in own.content.decode()


def test_leave_that_is_taken_back_holds_no_longer_on_that_very_day(signed_in, organiser, tutor, walk) -> None:
    Requirement.objects.create(key="leave", part="leader", kind="grant", title="Leave")
    today = timezone.localdate()
    leave = LeadingGrant.objects.create(person=tutor, granted_by=organiser, valid_from=today - timedelta(days=30))
    assert leader_readiness([tutor.pk], today)[tutor.pk].ready
    signed_in(organiser).post(reverse("courses:grant_end", args=[leave.pk]))
    assert not leader_readiness([tutor.pk], today)[tutor.pk].ready
    assert leader_readiness([tutor.pk], today - timedelta(days=1))[tutor.pk].ready


def test_leave_is_given_for_a_region_that_there_is(signed_in, organiser, tutor, site) -> None:
    client, url = signed_in(organiser), reverse("courses:grant_new")
    assert '<option value="North">' in client.get(url).content.decode()
    typed = {"person": tutor.pk, "region": "Nroth", "valid_from": timezone.localdate().isoformat()}
    assert client.post(url, typed).status_code == 422
    client.post(url, {**typed, "region": ""})
    assert LeadingGrant.objects.get().region == ""


def test_the_board_is_taken_away_as_a_table_and_printed(signed_in, tutor, organiser) -> None:
    ready_person("Ann", organiser, "first_aid")
    client = signed_in(tutor)
    assert "Ann" in client.get(reverse("courses:readiness_csv")).content.decode("utf-8-sig")
    assert client.get(reverse("courses:readiness_pdf")).content.startswith(b"%PDF")


@pytest.mark.parametrize("who", ["participant", "stranger", "assessor"])
def test_others_do_not_see_who_could_lead(signed_in, request, walk, who) -> None:
    client = signed_in(request.getfixturevalue(who))
    assert client.get(reverse("courses:walk", args=[walk.key])).status_code == 403
    assert client.get(reverse("courses:leaders_proposed")).status_code == 403


def test_the_page_of_a_walk_says_what_is_lacking(signed_in, tutor, walk, organiser) -> None:
    ready_person("Ann", organiser, "first_aid")
    page = signed_in(tutor).get(reverse("courses:walk", args=[walk.key])).content.decode()
    for words in ("Goodleaf / badleaf", "not passed, or not current", "Ann", "Nobody leads it yet."):
        assert words in page


def test_somebody_sees_their_own_way_and_says_whether_they_can(signed_in, organiser, walk) -> None:
    ask_only("first_aid", "insurance")
    person = ready_person("Ann", organiser, "first_aid")
    client, own = signed_in(person), reverse("courses:my_leading")
    page = client.get(own).content.decode()
    for words in ("Liability insurance", "never shown", "Lead alone:", walk.title):
        assert words in page
    client.post(reverse("courses:availability", args=[walk.key]), {"can_come": "no"})
    assert Availability.objects.get().can_come is False
    client.post(reverse("courses:availability", args=[walk.key]), {"can_come": "yes"})
    assert Availability.objects.get().can_come is True
    assert client.post(reverse("courses:availability", args=[walk.key]), {"can_come": "?"}).status_code == 404


def test_the_command_says_the_same(walk, organiser, capsys) -> None:
    ready_person("Ann", organiser, "first_aid")
    call_command("readiness", "--walk", walk.key, "--json")
    found = json.loads(capsys.readouterr().out)
    assert list(found["pairs"].values()) == [["flower"]]
    assert [each["could_lead"] for each in found["candidates"]] == [False]
    with pytest.raises(CommandError, match="no walk"):
        call_command("readiness", "--walk", "nowhere")
    with pytest.raises(CommandError, match="no walk"):
        call_command("readiness", "--walk", "")


def test_the_proposal_asks_as_often_for_many_walks_of_one_site(course, organiser, site, django_assert_max_num_queries):
    ready_person("Ann", organiser, "first_aid")
    make_meeting(course, days_ahead=20, site=site)
    with django_assert_max_num_queries(60) as first:
        proposal(timezone.now())
    for days in range(21, 31):
        make_meeting(course, days_ahead=days, site=site)
    with django_assert_max_num_queries(len(first)):
        proposal(timezone.now())


def test_a_proposal_for_many_sites_costs_no_more_queries(course, organiser, site, walk) -> None:
    ask_only("first_aid")
    ready_person("Ann", organiser, "first_aid")
    with CaptureQueriesContext(connection) as one:
        proposal(timezone.now())
    for days in range(21, 26):
        make_meeting(course, days_ahead=days, site=SiteFactory())
    with CaptureQueriesContext(connection) as many:
        proposal(timezone.now())
    assert len(many) == len(one)


def test_a_walk_says_of_its_assistants_whether_they_meet_what_is_asked_of_them(
    signed_in, organiser, walk, participant
) -> None:
    walk.assistants.add(participant)
    inside, address = signed_in(organiser), reverse("courses:walk", args=[walk.key])
    assert "All that is asked" in inside.get(address).content.decode()
    Requirement.objects.create(
        key="care", part="assistant", kind="proof", proof="safeguarding", title="Safeguarding", order=1
    )
    assert "Safeguarding: never shown." in inside.get(address).content.decode()
    line = walk_page(walk, timezone.now()).assistants[0]
    assert [check.requirement for check in line.missing] == ["safeguarding"]
