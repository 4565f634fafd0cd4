"""A tutor sets a test: looks first, is told what the bank lacks, and sets the nearest one with one press."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone
from playwright.sync_api import expect

from assessments.models import Paper
from courses.models import Course
from tests.factories.assessments import make_standard
from tests.factories.courses import enrol, make_course
from tests.factories.people import make_person, make_school
from tests.factories.species import PairFactory, SpecimenFactory, give_picture, make_species
from tests.journeys.sitting import sign_in
from tests.journeys.watching import DESKTOP, PHONE

SIZES = {"phone": PHONE, "desk": DESKTOP}


@pytest.fixture
def course(transactional_db):
    """A course of two people under a standard of one pair, with six plants of each side in the bank."""
    make_school()
    pair = PairFactory(gathered=make_species("goodleaf"), mistaken=make_species("badleaf", deadly=True))
    for species in (pair.gathered, pair.mistaken):
        for _each in range(6):
            give_picture(SpecimenFactory(species=species))
    course: Course = make_course(standard=make_standard(pair))
    for name in ("Pat Participant", "Sue Second"):
        enrol(make_person(name, "participant"), course)
    course.tutors.add(make_person("Tilda Tutor", "tutor"))
    return course


@pytest.mark.parametrize("size", SIZES)
def test_a_tutor_looks_first_and_then_sets_the_nearest_paper_with_one_press(open_window, course, size):
    window = sign_in(open_window(SIZES[size]), course.tutors.get())
    window.visit(reverse("courses:course_paper_new", args=[course.key]))
    window.get_by_label("goodleaf – badleaf").check()
    window.get_by_label("Number of questions").fill("6")
    window.get_by_role("button", name="Look at it first").click()
    expect(window.get_by_role("heading", name="It can be set")).to_be_visible()
    expect(window.locator(".example li")).to_have_count(6)
    window.assert_fits()
    window.assert_accessible()
    window.allow("422")
    window.get_by_label("Number of questions").fill("20")
    window.get_by_role("button", name="Set this paper").click()
    expect(window.get_by_role("heading", name="The bank is too small for it")).to_be_visible()
    window.assert_fits()
    window.assert_accessible()
    assert window.get_by_label("Number of questions").input_value() == "20"
    window.get_by_role("button", name="Set this one instead").click()
    expect(window.get_by_text("The paper is set for everybody who has a place.")).to_be_visible()
    assert (Paper.objects.get().questions, Paper.objects.get().seats.count()) == (12, 2)


def test_a_paper_is_withdrawn_before_it_opens(open_window, course):
    tutor = course.tutors.get()
    opens = timezone.now() + timedelta(days=1)
    paper = Paper.objects.create(
        title="The leaves", standard=course.standard, questions=4, opens_at=opens, seed=1, set_by=tutor.user,
        set_at=timezone.now(), blueprint={"dangerous_each": 1, "edible_each": 1, "per_species": 5},
    )  # fmt: skip
    course.papers.add(paper)
    window = sign_in(open_window(PHONE), tutor)
    window.visit(reverse("courses:course_paper", args=[course.key, paper.key]))
    window.get_by_role("link", name="What every paper holds").click()
    window.get_by_role("link", name="Withdraw it").click()
    window.get_by_label("Why").fill("The meadow was mown")
    window.get_by_role("button", name="Withdraw it").click()
    expect(window.get_by_text("The meadow was mown")).to_be_visible()
    paper.refresh_from_db()
    assert paper.withdrawn_by == tutor.user
