"""Looking back on a course and a year, and the note of thanks."""

from datetime import timedelta
from io import BytesIO

import pytest
from django.urls import reverse
from django.utils import timezone
from pypdf import PdfReader

from courses.models import Attendance
from species.models import Module, ModulePair
from tests.factories.assessments import make_live_evidence, make_standard
from tests.factories.courses import give_permission, make_meeting
from tests.factories.species import PairFactory, SpecimenFactory, make_species


@pytest.fixture
def pair(course):
    made = PairFactory(gathered=make_species("goodleaf"), mistaken=make_species("badleaf", deadly=True))
    course.standard = make_standard(made, key="of-this-course")
    course.save()
    return made


@pytest.fixture
def over(course, pair):
    """A meeting of last week that had the pair on its plan."""
    module = Module.objects.create(key="m", title="Carpets")
    ModulePair.objects.create(module=module, pair=pair)
    meeting = make_meeting(course, days_ahead=-7)
    meeting.modules.add(module, through_defaults={"order": 1})
    return meeting


def url(course, name="course_after") -> str:
    return reverse(f"courses:{name}", args=[course.key])


def test_a_pair_on_no_plan_is_named(signed_in, tutor, course, pair) -> None:
    page = signed_in(tutor).get(url(course)).content.decode()
    assert pair.mistaken.common_name in page.lower()
    assert "was on no plan" in page


def test_a_cancelled_meeting_is_the_reason_with_its_words(signed_in, tutor, course, over) -> None:
    over.cancelled_at, over.cancelled_because = over.starts_at, "flood"
    over.save()
    assert "its meeting was cancelled: flood" in signed_in(tutor).get(url(course)).content.decode()


def test_what_was_left_out_is_said_with_why(signed_in, tutor, course, over) -> None:
    module = over.modules.get()
    client = signed_in(tutor)
    typed = {f"left_out_{module.pk}": "on", f"why_{module.pk}": "too wet"}
    client.post(reverse("courses:meeting_taught", args=[over.key]), typed)
    assert "was left out at its meeting: too wet" in client.get(url(course)).content.decode()


def test_what_was_tested_is_no_longer_missing(signed_in, tutor, course, pair, participant) -> None:
    client = signed_in(tutor)
    assert "in no test at all" in client.get(url(course)).content.decode()
    make_live_evidence(participant.user, SpecimenFactory(species=pair.mistaken), "refuse", by=tutor.user)
    assert "in no test at all" not in client.get(url(course)).content.decode()


def test_the_table_says_the_same_and_holds_no_formula(signed_in, tutor, course, over) -> None:
    over.cancelled_at, over.cancelled_because = over.starts_at, "=HYPERLINK(1)"
    over.save()
    content = signed_in(tutor).get(url(course, "course_after_table")).content.decode("utf-8-sig")
    assert "its meeting was cancelled: =HYPERLINK(1)" in content
    assert not any(cell.startswith("=") for line in content.splitlines() for cell in line.split(","))


def test_the_year_is_for_organisers(signed_in, organiser, tutor, course) -> None:
    year = reverse("courses:year", args=[course.ends_on.year])
    assert course.title in signed_in(organiser).get(year).content.decode()
    assert signed_in(tutor).get(year).status_code == 403
    assert signed_in(organiser).get(reverse("courses:year", args=[1999])).status_code == 200
    assert signed_in(organiser).get(reverse("courses:year", args=[99999])).status_code == 404


def test_the_note_of_thanks_says_what_was_done_and_that_nothing_was_dug(signed_in, tutor, over, participant) -> None:
    give_permission(over.site, given_by="Quern commoners")
    Attendance.objects.create(
        meeting=over, person=participant, presence="present", marked_by=tutor, marked_at=timezone.now()
    )
    note = reverse("courses:thanks", args=[over.site.pk, over.starts_at.year])
    content = signed_in(tutor).get(note).content
    text = " ".join("".join(page.extract_text() for page in PdfReader(BytesIO(content)).pages).split())
    assert "Quern commoners" in text
    assert "1 person besides the leader" in text
    assert "No root and no whole plant was dug." in text


@pytest.mark.parametrize("who", ["participant", "stranger"])
def test_others_do_not_look_back(signed_in, request, course, who) -> None:
    assert signed_in(request.getfixturevalue(who)).get(url(course)).status_code == 403


def test_it_costs_the_same_for_many_meetings(signed_in, tutor, course, over, django_assert_max_num_queries) -> None:
    client = signed_in(tutor)
    with django_assert_max_num_queries(40) as first:
        client.get(url(course))
    for _each in range(6):
        make_meeting(course, days_ahead=-7).modules.add(over.modules.get(), through_defaults={"order": 1})
    with django_assert_max_num_queries(len(first)):
        client.get(url(course))


def test_cancelling_keeps_the_reason(signed_in, tutor, course) -> None:
    meeting = make_meeting(course, starts_at=timezone.now() + timedelta(days=1))
    signed_in(tutor).post(reverse("courses:meeting_cancel", args=[meeting.key]), {"because": "storm"})
    meeting.refresh_from_db()
    assert meeting.cancelled_because == "storm"
