"""The page from which questions leave, and the command: who may, what they show first, what is written down."""

import time

import pytest
from allauth.account.authentication import AUTHENTICATION_METHODS_SESSION_KEY
from allauth.mfa.models import Authenticator
from allauth.mfa.recovery_codes.internal.auth import RecoveryCodes
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from assessments.models import PackageRun, Voiding
from assessments.queries.packages.bank import Scope, questions_to_package
from assessments.queries.packages.kinds.catalogue import BUILDERS
from assessments.queries.sentences.packages import left_out_sentences
from species.models import Character
from tests.assessments.packages import files_of, fill_bank, mark, may_leave, plant
from tests.factories.species import PairFactory, SpecimenFactory, give_picture, make_species

PAGE = reverse("assessments:packages")


@pytest.fixture
def bank(pair, tutor, assessor):
    return fill_bank(pair, (tutor.user, assessor.user))


@pytest.fixture
def proved(signed_in, organiser):
    """The organiser, who has just used a second factor."""
    client = signed_in(organiser)
    Authenticator.objects.create(user=organiser.user, type=Authenticator.Type.TOTP, data={})
    remember(client, "mfa")
    return client


def remember(client, method: str, seconds_ago: int = 0) -> None:
    """What the sign-in writes down of a session, and whose it is."""
    session = client.session
    session["account_authentication_methods_user"] = session["_auth_user_id"]
    session[AUTHENTICATION_METHODS_SESSION_KEY] = [{"method": method, "at": time.time() - seconds_ago}]
    session.save()


def body(response) -> bytes:
    assert response.status_code == 200
    return b"".join(response.streaming_content)


def test_the_page_is_for_organisers_alone(client, signed_in, bank, tutor, assessor, participant, organiser):
    assert client.get(PAGE).status_code == 302
    found = [signed_in(each).get(PAGE).status_code for each in (tutor, assessor, participant, organiser)]
    assert found == [403, 403, 403, 200]
    assert signed_in(tutor).post(PAGE, {"take": "package"}).status_code == 403
    assert PackageRun.objects.count() == 0


def test_the_page_says_that_marks_alone_lose_the_safety_rule(signed_in, organiser):
    text = signed_in(organiser).get(PAGE).content.decode()
    assert "Marks alone lose the safety rule" in text
    assert "Nothing has left" in text


def test_teaching_questions_and_their_table_leave_and_are_written_down(proved, bank, organiser):
    package = proved.post(PAGE, {"take": "package"})
    assert package["Content-Disposition"].startswith('attachment; filename="questions-')
    assert package["Cache-Control"] == "private, no-store"
    assert "imsmanifest.xml" in files_of(body(package))
    table = body(proved.post(PAGE, {"take": "table"}))
    assert table.startswith(b"\xef\xbb\xbfitem,kind,use,")
    assert bank[4].key.encode() not in table
    runs = PackageRun.objects.values_list("part", "by")
    assert list(runs) == [("table", organiser.user.pk), ("package", organiser.user.pk)]
    assert "Olga Organiser" in proved.get(PAGE).content.decode()


def test_questions_of_tests_are_asked_for_twice(proved, bank):
    first = proved.post(PAGE, {"take": "table", "assessment": "on"})
    assert "are you sure?" in first.content.decode()
    assert PackageRun.objects.count() == 0
    table = body(proved.post(PAGE, {"take": "table", "assessment": "on", "sure": "on"}))
    assert bank[4].key.encode() in table
    assert PackageRun.objects.get().with_assessment
    assert "Holds what serves for tests" in proved.get(PAGE).content.decode()


@pytest.mark.parametrize("method", [("mfa", 3600), ("code", 0)])
def test_whoever_has_a_second_factor_shows_it_shortly_before(proved, bank, method):
    remember(proved, *method)
    response = proved.post(PAGE, {"take": "package", "standard": ""})
    assert response.status_code == 403
    assert f"{reverse('mfa_reauthenticate')}?next=" in response.content.decode()
    assert PackageRun.objects.count() == 0


def test_what_was_chosen_is_still_there_after_showing_it(proved, standard, bank):
    remember(proved, "mfa", 3600)
    text = proved.post(PAGE, {"take": "package", "standard": "participant", "assessment": "on", "sure": "on"}).content
    back = "?next=%2Fquestions%2F%3Fstandard%3Dparticipant%26assessment%3Don"
    assert back in text.decode()
    again = proved.get(PAGE, {"standard": "participant", "assessment": "on"}).content.decode()
    assert '<option value="participant" selected>' in again
    assert "checked" in again


def test_a_recovery_code_shown_once_more_opens_the_way(signed_in, organiser, bank):
    client, codes = signed_in(organiser), RecoveryCodes.activate(organiser.user).get_unused_codes()
    assert client.post(PAGE, {"take": "package"}).status_code == 403
    shown = client.post(reverse("mfa_reauthenticate"), {"code": codes[0], "next": f"{PAGE}?standard="})
    assert (shown.status_code, shown["Location"]) == (302, f"{PAGE}?standard=")
    assert "imsmanifest.xml" in files_of(body(client.post(PAGE, {"take": "package"})))


def test_without_a_second_factor_a_fresh_sign_in_does_for_teaching_only(signed_in, organiser, bank):
    client = signed_in(organiser)
    remember(client, "code", 3600)
    assert "Sign out, then sign in again" in client.post(PAGE, {"take": "package"}).content.decode()
    remember(client, "code")
    assert body(client.post(PAGE, {"take": "package"}))
    grave = client.post(PAGE, {"take": "package", "assessment": "on", "sure": "on"})
    assert grave.status_code == 403
    assert "only with a second factor" in grave.content.decode()


def test_an_empty_bank_is_said_in_a_sentence_with_what_stays(proved, pair):
    give_picture(SpecimenFactory(species=pair.gathered, use="teaching"))
    response = proved.post(PAGE, {"take": "package"})
    assert response.status_code == 422
    text = response.content.decode()
    assert "There is no question to take" in text
    assert "under which licence: 1." in text


def test_a_standard_that_is_not_in_use_is_refused(proved, bank):
    response = proved.post(PAGE, {"take": "package", "standard": "nonsense"})
    assert response.status_code == 422
    assert "choose one of the list" in response.content.decode()


def test_only_pairs_of_the_standard_are_asked_about(bank, standard):
    other = PairFactory(gathered=make_species("otherleaf"), mistaken=make_species("thirdleaf", deadly=True))
    plant(other.gathered)
    assert {each.pair for each in questions_to_package(Scope()).questions} == {bank_pair(standard), other.key}
    assert {each.pair for each in questions_to_package(Scope(standard)).questions} == {bank_pair(standard)}


def bank_pair(standard) -> str:
    return standard.pairs.get().pair.key


def test_what_is_void_disputed_drawn_or_without_a_licence_stays(pair, organiser, settings):
    settings.DRAWINGS_COUNT = False
    kept = plant(pair.gathered)
    plant(pair.gathered, drawing_seed=5)
    plant(pair.gathered, settlement="disputed")
    void = plant(pair.mistaken)
    Voiding.objects.create(specimen=void, voided_at=void.added_at, voided_by=organiser.user, reason="two plants")
    may_leave(plant(pair.mistaken).photos.get(), licence="")
    packaged = questions_to_package(Scope())
    assert {each.key for asked in packaged.questions for each in asked.plants} == {kept.key}
    assert (packaged.left_out.drawings, packaged.left_out.without_licence) == (1, 1)
    assert len(left_out_sentences(packaged)) == 2


def test_a_picture_whose_file_is_lost_stays_and_a_feature_in_several_fields_is_no_question(bank, pair):
    lost, wide = bank[1].photos.get(), bank[2].photos.get()
    for row in lost.renditions.all():
        row.file.delete(save=False)
    mark(wide, Character.objects.get(key="hairs"), "0.05", "0.05", width="0.9", height="0.9")
    packaged = questions_to_package(Scope())
    assert (packaged.left_out.without_file, packaged.left_out.several_fields) == (1, 1)
    assert packaged.counts["point_at_it"] == 1


def test_a_plant_that_is_only_named_is_never_offered_for_gathering(pair):
    leaf = make_species("comfortleaf", edibility="not eaten")
    odd = PairFactory(gathered=leaf, mistaken=pair.mistaken)
    plant(leaf)
    mine = [each for each in questions_to_package(Scope()).questions if each.pair == odd.key]
    assert [each.item.choices[0].text for each in mine] == ["It is comfortleaf."]


def test_a_kind_that_a_package_cannot_hold_yet_is_said(bank, monkeypatch):
    monkeypatch.delitem(BUILDERS, "point_at_it")
    assert left_out_sentences(questions_to_package(Scope())) == (
        "Questions of this kind cannot be taken yet: Point at it.",
    )


def test_the_number_of_questions_to_the_database_does_not_grow(bank, pair, django_assert_num_queries):
    with CaptureQueriesContext(connection) as few:
        questions_to_package(Scope())
    for _each in range(4):
        plant(pair.gathered)
        plant(pair.mistaken)
    with django_assert_num_queries(len(few)):
        questions_to_package(Scope())
