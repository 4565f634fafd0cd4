"""The inventory of what is held of people: no model and no field is missing, and none is in it that is not there."""

import pytest
from django.apps import apps
from django.db import models

from courses.rules.inventory.catalogue import HOLDINGS, NOTHING_OF_PEOPLE, free_texts, holdings_for
from courses.rules.inventory.shape import PERSONAL, RUNS_BY_ITSELF, Activity, Nature, Term, holds

ROOMS = ("courses", "assessments", "species")
TEXTS = (models.CharField, models.TextField, models.JSONField)
NO_SENTENCE = (models.SlugField, models.URLField, models.EmailField)
PEOPLE = {"courses.Person", "auth.User"}


def fields_of(label: str) -> list[models.Field]:
    meta = apps.get_model(label)._meta
    return [*meta.local_fields, *meta.local_many_to_many]


def missing_from(known: dict[str, set[str]]) -> list[str]:
    """Every model, and every field of one, that is in the database and not in these."""
    found = []
    for model in apps.get_models():
        label = model._meta.label
        if label in NOTHING_OF_PEOPLE:
            continue
        found += [f"{label}.{each.name}" for each in fields_of(label) if each.name not in known.get(label, set())]
    return found


KNOWN = {each.model: set(each.fields) for each in HOLDINGS}


def test_every_field_of_every_model_is_in_the_inventory() -> None:
    assert missing_from(KNOWN) == []


def test_a_model_that_nobody_entered_is_found_missing() -> None:
    assert "courses.Person.phone" in missing_from({**KNOWN, "courses.Person": {"id", "name"}})
    assert "courses.Letter.to" in missing_from({name: held for name, held in KNOWN.items() if name != "courses.Letter"})


def test_the_inventory_names_nothing_that_is_not_there() -> None:
    stale = [
        f"{each.model}.{name}"
        for each in HOLDINGS
        for name in set(each.fields) - {field.name for field in fields_of(each.model)}
    ]
    assert stale == []


def test_each_model_stands_in_it_once() -> None:
    assert len(KNOWN) == len(HOLDINGS)


@pytest.mark.parametrize("holding", HOLDINGS, ids=lambda each: each.model)
def test_a_field_that_points_at_a_person_is_no_field_without_people(holding) -> None:
    at_people = {
        each.name
        for each in fields_of(holding.model)
        if each.is_relation and each.related_model is not None and each.related_model._meta.label in PEOPLE
    }
    assert at_people <= set(holding.of(*PERSONAL))


@pytest.mark.parametrize("room", ROOMS)
def test_an_e_mail_address_is_a_contact(room: str) -> None:
    for holding in HOLDINGS:
        addresses = {each.name for each in fields_of(holding.model) if isinstance(each, models.EmailField)}
        assert addresses <= set(holding.of(Nature.CONTACT))
    assert any(each.model.startswith(room) for each in HOLDINGS)


def test_a_long_text_that_people_type_is_free_text_or_something_more() -> None:
    """Texts of the taught plants, and words that the program writes itself, are the exceptions."""
    typed = {
        f"{each.model}.{field.name}"
        for each in HOLDINGS
        for field in fields_of(each.model)
        if isinstance(field, models.TextField) and each.fields[field.name] not in (Nature.WORDS, Nature.SIGN_IN)
    }
    plants = ("species.Species.", "species.PartUsed.", "species.Character.", "species.Pair.", "species.PairCharacter.")
    assert {name for name in typed if not name.startswith(plants)} == {
        "courses.School.postal_address",
        "courses.Consent.words",
        "courses.Certificate.credential",
        "courses.HistoricalCertificate.credential",
    }


def test_a_line_that_people_type_is_free_text_or_one_of_few_that_name_nobody() -> None:
    """Names of plants, of the school and of what is asked are typed as well; a code needs no more room than these."""
    typed = {
        f"{each.model}.{field.name}"
        for each in HOLDINGS
        for field in fields_of(each.model)
        if isinstance(field, models.CharField) and not isinstance(field, NO_SENTENCE) and not field.choices
        if (field.max_length or 999) >= 80 and each.fields[field.name] in (Nature.FACT, Nature.NONE)
    }
    plants = ("Species", "CommonName", "Synonym", "PartUsed", "Character", "Pair", "Module")
    assert {name for name in typed if not name.removeprefix("species.").startswith(plants)} == {
        "courses.School.name",
        "courses.School.region",
        "courses.School.poisons_number",
        "courses.Reminder.about",
        "courses.Site.region",
        "courses.Requirement.title",
        "assessments.Standard.name",
        "assessments.StandardSpecies.reason",
        "assessments.Answer.said",
        "assessments.Evidence.said",
        "species.Photo.licence",
        "species.Determination.said",
    }


def test_free_texts_are_columns_of_text() -> None:
    for label, names in free_texts():
        columns = {each.name: each for each in fields_of(label)}
        assert all(isinstance(columns[name], TEXTS) for name in names), label


def test_what_is_told_in_confidence_ends_by_itself() -> None:
    secret = [each for each in HOLDINGS if each.of(Nature.SECRET)]
    assert [each.model for each in secret] == ["courses.JoiningForm"]
    assert {each.term for each in secret} <= RUNS_BY_ITSELF


def test_what_holds_a_name_or_a_way_to_reach_somebody_has_an_end() -> None:
    """By a step of the day or by erasure. Only the school's own address, and who named a plant from outside, stay."""
    reach = {each.model for each in HOLDINGS if each.of(Nature.NAME, Nature.CONTACT)}
    at_erasure = {Term.ERASED, Term.CERTIFICATE, Term.INVENTED}
    ends = {each.model for each in HOLDINGS if each.term in RUNS_BY_ITSELF | at_erasure}
    assert reach - ends == {"courses.School", "species.DeterminerLink"}


def test_every_purpose_holds_something() -> None:
    assert [each for each in Activity if not any(line.activity is each for line in HOLDINGS)] == []


def test_a_line_without_people_is_in_no_record_of_processing() -> None:
    told = {line.model for each in Activity for line in holdings_for(each)}
    assert "species.Species" not in told
    assert "courses.Person" in told


def test_a_field_listed_twice_is_refused() -> None:
    with pytest.raises(ValueError, match="twice"):
        holds("courses.Person", Activity.PEOPLE, Term.ERASED, name="name", none="name")
