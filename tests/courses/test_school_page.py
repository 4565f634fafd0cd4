"""What the school says of itself."""

from django.urls import reverse

from courses.models import School

URL = "/school/"
TYPED = {
    "name": "School of the Shore", "region": "The Shore", "postal_address": "1 Quay", "email": "hello@example.org",
    "emergency_number": "999", "poisons_number": "",
}  # fmt: skip


def test_an_organiser_changes_the_name_and_the_numbers_of_every_page(signed_in, organiser, school: School) -> None:
    page = signed_in(organiser).post(URL, TYPED, follow=True).content.decode()
    school.refresh_from_db()
    assert (school.name, school.emergency_number) == ("School of the Shore", "999")
    assert 'href="tel:999"' in page


def test_a_school_without_an_emergency_number_is_refused(signed_in, organiser, school: School) -> None:
    page = signed_in(organiser).post(URL, {**TYPED, "emergency_number": ""}).content.decode()
    school.refresh_from_db()
    assert school.name == "Test School of Wild Food"
    assert 'value="School of the Shore"' in page


def test_what_the_settings_decide_cannot_be_changed_here(signed_in, organiser, school: School) -> None:
    signed_in(organiser).post(URL, {**TYPED, "is_demo": "on", "address": "https://evil.example", "time_zone": "X"})
    school.refresh_from_db()
    assert (school.is_demo, school.address) == (False, "http://testserver")


def test_others_change_nothing(client, signed_in, tutor, participant, school: School) -> None:
    assert client.post(URL, TYPED)["Location"].startswith(reverse("account_login"))
    for person in (tutor, participant):
        assert signed_in(person).post(URL, TYPED).status_code == 403
    school.refresh_from_db()
    assert school.name == "Test School of Wild Food"
