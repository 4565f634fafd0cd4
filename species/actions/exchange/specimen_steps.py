"""Specimens of an archive into the bank, one by one, inside the transaction of the whole archive."""

import hashlib
from collections.abc import Mapping, Sequence
from datetime import datetime

from django.contrib.auth.models import User

from species.actions.determinations import determine
from species.actions.exchange.people import PeopleOfArchive
from species.actions.exchange.places import PlacesOfArchive
from species.actions.exchange.there_already import ThereAlready
from species.actions.photographs import Credit, keep_picture
from species.documents.archives import BrokenMember, Member
from species.documents.pictures import BadPicture, Limits, Picture, read_picture
from species.models import CharacterState, Individual, Photo, Region, Species, Specimen
from species.rules.bank import Said, lacks
from species.rules.darwin.facts import OpinionFacts, PictureFacts, RegionFacts, SpecimenFacts
from species.rules.darwin.layouts import MEDIA, OCCURRENCES, REGIONS
from species.rules.darwin.slips import Notes, Remark, Wrong
from species.rules.vocabulary import Use


class SpecimenSteps:
    """Keeps specimens, and counts them; what is wrong with a picture is noted, and then the caller keeps nothing."""

    def __init__(
        self,
        species: Mapping[str, Species],
        files: Mapping[str, Member],
        notes: Notes,
        stored: list[str],
        *,
        widths: Sequence[int],
        limits: Limits,
        by: User,
        now: datetime,
        is_own: bool,
    ) -> None:
        self.species, self.files, self.notes, self.stored = species, files, notes, stored
        self.widths, self.limits, self.by, self.now, self.is_own = widths, limits, by, now, is_own
        self.places = PlacesOfArchive(notes)
        self.people = PeopleOfArchive(by, now, notes)
        self.plants: dict[tuple[str, int], Individual] = {}
        self.states = {(row.character.key, row.key): row for row in CharacterState.objects.select_related("character")}
        self.characters = {row.character.key: row.character for row in self.states.values()}
        self.there = ThereAlready(notes)
        self.keys: dict[str, int] = {}
        self.photos = dict(Photo.objects.values_list("original_sha256", "specimen__key"))
        self.photo_keys = set(Photo.objects.values_list("key", flat=True))
        self.added = self.unchanged = self.pictures = 0

    def keep(self, facts: SpecimenFacts) -> None:
        """Add a specimen with all that is said of it; one that is there already stays as it is."""
        if facts.key in self.there:
            self.there.compare(facts)
            self.unchanged += 1
            return
        if facts.key in self.keys:
            self.notes.add(Wrong.TWICE, OCCURRENCES.file, facts.row, value=facts.key, first=self.keys[facts.key])
            return
        self.keys[facts.key] = facts.row
        specimen = Specimen.objects.create(
            key=facts.key,
            individual=self._plant(facts),
            seen_on=facts.seen_on,
            stage=facts.stage.value if facts.stage else "",
            form=facts.form or "typical",
            use=self._use(facts),
            note=facts.note,
            added_by=self.by,
            added_at=self.now,
        )
        for opinion in facts.opinions:
            self._opinion(specimen, opinion)
        for picture in facts.pictures:
            self._picture(specimen, picture)
        if facts.settlement and specimen.settlement != facts.settlement.value:
            self.notes.add(Remark.OTHER_STANDING, OCCURRENCES.file, facts.row, said=facts.settlement.value,
                           stands=specimen.settlement)  # fmt: skip
        self.added += 1

    def _plant(self, facts: SpecimenFacts) -> Individual:
        place = self.places.locality(facts.place, facts.row)
        known = (facts.plant or facts.key, place.pk)
        if known not in self.plants:
            self.plants[known] = Individual.objects.create(locality=place, label=facts.plant_label)
        return self.plants[known]

    def _use(self, facts: SpecimenFacts) -> str:
        """What it serves for. Only the school's own archive is believed that something serves for tests."""
        said = [Said(each.part, each.owner, each.licence) for each in facts.pictures if each.path]
        unseen = bool(facts.pictures) and not said
        believed = self.is_own or facts.use is not Use.ASSESSMENT
        if unseen or not believed or lacks(facts.stage.value if facts.stage else "", said):
            self.notes.add(Remark.IN_TRAY, OCCURRENCES.file, facts.row, value=facts.key)
            return ""
        return (facts.use or Use.TEACHING).value

    def _opinion(self, specimen: Specimen, facts: OpinionFacts) -> None:
        user, link = self.people.speaker(facts)
        determine(
            specimen,
            said=facts.said,
            species=self.species[facts.species.key] if facts.species else None,
            characters=facts.characters,
            now=facts.at,
            by=user,
            link=link,
            brought_by=None if self.is_own else self.by,
        )

    def _picture(self, specimen: Specimen, facts: PictureFacts) -> None:
        picture = self._read(facts) if facts.path else None
        if picture is None:
            return
        if picture.sha256 in self.photos:
            self._wrong(Wrong.TWICE, facts, value=facts.path, first=self.photos[picture.sha256])
            return
        self.photos[picture.sha256] = specimen.key
        credit = Credit(facts.part, facts.photographer, facts.licence, facts.owner)
        photo = keep_picture(specimen, picture, credit, self.stored, by=self.by, now=self.now)
        if facts.id not in self.photo_keys and len(facts.id) <= 32:
            photo.key = facts.id
            self.photo_keys.add(facts.id)
        photo.caption, photo.alt_blind, photo.alt_full = facts.caption, facts.alt_blind, facts.alt_full
        photo.taken_at = facts.taken_at or photo.taken_at
        photo.save()
        for region in facts.regions:
            self._region(photo, region)
        self.pictures += 1

    def _read(self, facts: PictureFacts) -> Picture | None:
        member = self.files.get(facts.path)
        if member is None:
            self._wrong(Wrong.NO_PICTURE, facts, value=facts.path)
            return None
        try:
            if member.size > self.limits.bytes:
                self._wrong(Wrong.TABLE_TOO_LARGE, facts, most=self.limits.bytes)
                return None
            content = member.read()
            if facts.sha256 and hashlib.sha256(content).hexdigest() != facts.sha256:
                self._wrong(Wrong.HASH_DIFFERS, facts, value=facts.path)
                return None
            return read_picture(content, self.widths, self.limits)
        except BrokenMember:
            self._wrong(Wrong.BROKEN, facts)
        except BadPicture as reason:
            self._wrong(Wrong.BAD_PICTURE, facts, value=facts.path, refusal=reason.reason.name, figure=reason.figure)
        return None

    def _region(self, photo: Photo, facts: RegionFacts) -> None:
        if facts.character not in self.characters or (facts.state and self._state(facts) is None):
            value = f"{facts.character} {facts.state}".strip()
            self.notes.add(Wrong.UNKNOWN_CHARACTER, REGIONS.file, facts.row, "character", value=value)
            return
        frame, is_circle = facts.frame, facts.frame.radius > 0
        Region.objects.create(
            photo=photo,
            character=self.characters[facts.character],
            state=self._state(facts),
            x=_four(frame.x),
            y=_four(frame.y),
            width=None if is_circle else _four(frame.width),
            height=None if is_circle else _four(frame.height),
            radius=_four(frame.radius) if is_circle else None,
            drawn_by=self.by,
            drawn_at=self.now,
        )

    def _state(self, facts: RegionFacts) -> CharacterState | None:
        return self.states.get((facts.character, facts.state))

    def _wrong(self, what: Wrong, facts: PictureFacts, **values: object) -> None:
        self.notes.add(what, MEDIA.file, facts.row, "accessURI", **values)


def _four(fraction: float) -> str:
    """A fraction as it is stored. Rounded down, so that a region never grows over the edge."""
    return f"{int(fraction * 10_000 + 1e-6) / 10_000:.4f}"
