"""The pairs of a certificate as rows: always what its frozen facts and its narrowings say."""

from importlib import import_module

import pytest
from django.apps import apps
from django.utils import timezone

from courses.actions.certificates import issue_certificate, record_event
from courses.models import Certificate, CertifiedPair
from courses.queries.lives import life_on
from tests.factories.certificates import make_certificate, make_facts

fill = import_module("courses.migrations.0004_pairs_of_certificates").write_pairs


def left(certificate: Certificate) -> set[str]:
    return set(certificate.certified_pairs.left().values_list("key", flat=True))


@pytest.fixture
def held(participant, standard, organiser) -> Certificate:
    facts = make_facts(4).as_json()
    return make_certificate(participant, standard, organiser, facts=facts)


def narrow(certificate: Certificate, by, *keeping: str) -> None:
    record_event(certificate, "narrowed", by, "Because", now=timezone.now(), keeping=keeping)


def test_issuing_writes_them(passed, organiser) -> None:
    issued = issue_certificate(passed, organiser, now=timezone.now())
    assert left(issued) == {pair["key"] for pair in issued.facts["pairs"]} != set()


def test_narrowing_marks_what_it_takes_and_nothing_else_does(held, organiser) -> None:
    record_event(held, "suspended", organiser, "A doubt", now=timezone.now())
    assert len(left(held)) == 4
    record_event(held, "lifted", organiser, "None", now=timezone.now())
    narrow(held, organiser, "pair-1", "pair-2", "pair-3")
    narrow(held, organiser, "pair-2")
    assert left(held) == {"pair-2"} == set(life_on(held, timezone.localdate()).pairs)
    taken = {row.key: row.dropped_by.facts["pairs"] for row in held.certified_pairs.exclude(dropped_by=None)}
    first = ["pair-1", "pair-2", "pair-3"]
    assert taken == {"pair-4": first, "pair-1": ["pair-2"], "pair-3": ["pair-2"]}


def test_certificates_from_before_get_the_same_rows(held, organiser) -> None:
    narrow(held, organiser, "pair-1", "pair-2", "pair-3")
    narrow(held, organiser, "pair-2")
    written = list(CertifiedPair.objects.values_list("key", "dropped_by"))
    CertifiedPair.objects.all().delete()
    fill(apps, None)
    assert list(CertifiedPair.objects.values_list("key", "dropped_by")) == written
    assert len(written) == 4
