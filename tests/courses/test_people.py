"""Taking people in, and the permissions that follow from roles."""

import pytest

from courses.actions.people import AddressTaken, take_in
from courses.models import Person
from tests.factories.people import TODAY


def test_a_person_taken_in_signs_in_with_a_verified_address(organiser: Person) -> None:
    person = take_in("New@Example.org ", "New Person", today=TODAY, roles=["participant"], by=organiser)
    address = person.user.emailaddress_set.get()
    assert (address.email, address.verified, address.primary) == ("new@example.org", True, True)
    assert not person.user.has_usable_password()


def test_an_address_belongs_to_one_person_whatever_its_case(organiser: Person) -> None:
    take_in("same@example.org", "First", today=TODAY, roles=["participant"])
    with pytest.raises(AddressTaken):
        take_in("SAME@example.org", "Second", today=TODAY, roles=["participant"])
    assert not Person.objects.filter(name="Second").exists()


def test_a_tutor_may_set_papers_and_a_participant_may_not(tutor: Person, participant: Person) -> None:
    assert tutor.user.has_perm("assessments.add_paper")
    assert not participant.user.has_perm("assessments.add_paper")
