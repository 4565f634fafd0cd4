"""The certificate as an open credential: Open Badges 3.0 on W3C Verifiable Credentials 2.0, from finished words.

In the format of that standard; not certified by anybody. It holds neither the holder's name nor anything about
what was not passed.
"""

import hashlib
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from courses.rules.status_bits import encoded_list

W3C = "https://www.w3.org/ns/credentials/v2"
OPEN_BADGES = "https://purl.imsglobal.org/spec/ob/v3p0/context-3.0.3.json"
EXTENSIONS = "https://purl.imsglobal.org/spec/ob/v3p0/extensions.json"
SCHEMA = "https://purl.imsglobal.org/spec/ob/v3p0/schema/json/ob_v3p0_achievementcredential_schema.json"
REVOCATION = "revocation"
FRESH_MILLISECONDS = 300_000  # for so long somebody may keep the status list


@dataclass(frozen=True)
class Issuer:
    """The school as it is named in a credential: its public address and its name."""

    address: str
    name: str

    @property
    def id(self) -> str:
        """The address that answers with the profile."""
        return f"{self.address}/issuer/"

    @property
    def status_list(self) -> str:
        """The address of the list of what was revoked."""
        return f"{self.id}status/1/"

    def key(self, name: str) -> str:
        """The address that answers with one key."""
        return f"{self.id}keys/{name}.json"

    def achievement(self, key: str, version: int) -> str:
        """The address of what was achieved."""
        return f"{self.id}achievements/{key}/{version}/"


@dataclass(frozen=True)
class PairShown:
    """One dangerous pair: its key, and two short texts: what is told from what, and on what evidence."""

    key: str
    name: str
    evidence: str = ""


@dataclass(frozen=True)
class AchievementWords:
    """What is achieved under one version of a standard. `page`: the public page of that version."""

    key: str
    version: int
    name: str
    description: str
    criteria: str
    language: str
    page: str
    pairs: tuple[PairShown, ...]


@dataclass(frozen=True)
class Edition:
    """One signing of a certificate. Another one has another id and another place in the status list.

    subject: an address of the certificate, never of the person; ends: the first moment at which it is over.
    """

    id: str
    subject: str
    number: str
    index: int
    email: str
    salt: str
    name: str
    evidence: str
    starts: datetime
    ends: datetime
    awarded: datetime
    ownership: str = ""


def open_credential(issuer: Issuer, achievement: AchievementWords, edition: Edition) -> dict[str, Any]:
    """The credential without its signature."""
    return {
        "@context": [W3C, OPEN_BADGES, EXTENSIONS],
        "id": edition.id,
        "type": ["VerifiableCredential", "OpenBadgeCredential"],
        "name": plain(edition.name),
        # whose property it stays is a sentence of the description: terms of use need a type that some context defines
        "description": plain(f"{achievement.description} {edition.ownership}".strip()),
        "issuer": {"id": issuer.id, "type": ["Profile"], "name": plain(issuer.name), "url": issuer.address},
        "validFrom": stamp(edition.starts),
        "validUntil": stamp(edition.ends),
        "awardedDate": stamp(edition.awarded),
        "credentialSubject": _subject(issuer, achievement, edition),
        "evidence": [{"type": ["Evidence"], "narrative": plain(edition.evidence)}],
        "credentialSchema": [{"id": SCHEMA, "type": "1EdTechJsonSchemaValidator2019"}],
        "credentialStatus": {
            "id": f"{issuer.status_list}#{edition.index}",
            "type": "BitstringStatusListEntry",
            "statusPurpose": REVOCATION,
            "statusListIndex": str(edition.index),
            "statusListCredential": issuer.status_list,
        },
    }


def _subject(issuer: Issuer, achievement: AchievementWords, edition: Edition) -> dict[str, Any]:
    place = issuer.achievement(achievement.key, achievement.version)
    return {
        "id": edition.subject,
        "type": ["AchievementSubject"],
        "licenseNumber": edition.number,
        "identifier": [
            {
                "type": "IdentityObject",
                "hashed": True,
                "identityType": "emailAddress",
                "salt": edition.salt,
                "identityHash": hidden(edition.email, edition.salt),
            }
        ],
        "achievement": achievement_object(issuer, achievement),
        "result": [
            {
                "type": ["Result"],
                "resultDescription": f"{place}#{pair.key}",
                "status": "Completed",
                "value": plain(pair.evidence),
            }
            for pair in achievement.pairs
        ],
    }


def achievement_object(issuer: Issuer, achievement: AchievementWords) -> dict[str, Any]:
    """What was achieved, with one line per dangerous pair."""
    place = issuer.achievement(achievement.key, achievement.version)
    return {
        "id": place,
        "type": ["Achievement"],
        "achievementType": "Certification",
        "name": plain(achievement.name),
        "version": str(achievement.version),
        "inLanguage": achievement.language,
        "description": plain(achievement.description),
        "criteria": {"narrative": plain(achievement.criteria)},
        "alignment": [{"type": ["Alignment"], "targetName": plain(achievement.name), "targetUrl": achievement.page}],
        "resultDescription": [
            {
                "id": f"{place}#{pair.key}",
                "type": ["ResultDescription"],
                "name": plain(pair.name),
                "resultType": "Status",
                "allowedValue": ["Failed", "Completed"],
                "requiredValue": "Completed",
            }
            for pair in achievement.pairs
        ],
    }


def status_list(issuer: Issuer, revoked: frozenset[int], changed: datetime) -> dict[str, Any]:
    """The list of revoked editions without its signature. `changed`: when a bit was set last."""
    return {
        "@context": [W3C],
        "id": issuer.status_list,
        "type": ["VerifiableCredential", "BitstringStatusListCredential"],
        "issuer": issuer.id,
        "validFrom": stamp(changed),
        "credentialSubject": {
            "id": f"{issuer.status_list}#list",
            "type": "BitstringStatusList",
            "statusPurpose": REVOCATION,
            "encodedList": encoded_list(revoked),
            "ttl": FRESH_MILLISECONDS,
        },
    }


def profile(issuer: Issuer) -> dict[str, Any]:
    """The school, as its address answers."""
    return {
        "@context": [W3C, OPEN_BADGES],
        "id": issuer.id,
        "type": ["Profile"],
        "name": plain(issuer.name),
        "url": issuer.address,
    }


def hidden(email: str, salt: str) -> str:
    """An address in small letters behind SHA-256. The salt is public: this hides the address, no more."""
    return "sha256$" + hashlib.sha256((email.lower() + salt).encode()).hexdigest()


def stamp(moment: datetime) -> str:
    """A moment in UTC to the second."""
    return moment.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def plain(text: str) -> str:
    """A text in which nobody can see mark-up."""
    return text.replace("<", "‹").replace(">", "›")
