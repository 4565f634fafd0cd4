"""A certificate that was issued and signed, and what a stranger reads of it."""

import base64
import json
from dataclasses import dataclass
from typing import Any

import pytest
from django.utils import timezone

from courses.actions.certificates import issue_certificate
from courses.models import Certificate, School
from courses.queries.signing_keys import published_keys


@dataclass(frozen=True)
class Shown:
    """A signed file, taken apart without any of our code."""

    token: str

    def part(self, number: int) -> dict[str, Any]:
        text = self.token.split(".")[number]
        return json.loads(base64.urlsafe_b64decode(text + "=" * (-len(text) % 4)))

    @property
    def header(self) -> dict[str, Any]:
        return self.part(0)

    @property
    def said(self) -> dict[str, Any]:
        return self.part(1)

    @property
    def subject(self) -> dict[str, Any]:
        return self.said["credentialSubject"]

    @property
    def credential(self) -> dict[str, Any]:
        """What is said, without the claims that only repeat it."""
        return {name: value for name, value in self.said.items() if name not in ("iss", "jti", "sub", "nbf", "exp")}


@pytest.fixture
def school(school: School) -> School:
    """A school that is reached as schools are, over an encrypted line."""
    school.address = "https://school.example"
    school.save()
    return school


@pytest.fixture
def issued(passed, organiser) -> Certificate:
    return issue_certificate(passed, organiser, now=timezone.now())


@pytest.fixture
def shown(issued: Certificate) -> Shown:
    return Shown(issued.credential)


@pytest.fixture
def public_key(shown: Shown) -> dict[str, Any]:
    """The key that the token names."""
    name = shown.header["kid"].rpartition("/")[2].removesuffix(".json")
    return dict(published_keys()[name])
