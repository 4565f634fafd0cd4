"""Frames on the drawings of the invented school: where the characters can be seen that tell its plants apart."""

from collections import defaultdict
from collections.abc import Iterable
from datetime import datetime

from courses.actions.demo.drawing import Shown
from species.models import Character, CharacterState, PairCharacter, Photo, Region
from species.rules.vocabulary import Trust


class Marker:
    """Draws the frames on one drawing after the other; asks the database three times, however many there are."""

    def __init__(self, now: datetime) -> None:
        self.now = now
        self.characters = {row.key: row for row in Character.objects.all()}
        self.states = {(row.character_id, row.key): row for row in CharacterState.objects.all()}
        self.telling: dict[int, set[str]] = defaultdict(set)
        rows = PairCharacter.objects.exclude(trust=Trust.NOT_TO_BE_RELIED_ON).filter(character__isnull=False)
        for gathered, mistaken, key in rows.values_list("pair__gathered", "pair__mistaken", "character__key"):
            self.telling[gathered].add(key)
            self.telling[mistaken].add(key)

    def mark(self, photo: Photo, shown: Iterable[Shown]) -> None:
        """Frame on a drawing what tells its plant from those that it is mistaken for."""
        telling = self.telling[photo.specimen.species_id or 0]
        Region.objects.bulk_create(self._region(photo, each) for each in shown if each.character in telling)

    def _region(self, photo: Photo, shown: Shown) -> Region:
        character = self.characters[shown.character]
        frame = shown.frame
        x, y = round(frame.x, 4), round(frame.y, 4)
        return Region(
            photo=photo,
            character=character,
            state=self.states.get((character.pk, shown.state)),
            x=x,
            y=y,
            width=min(round(frame.width, 4), round(1 - x, 4)),
            height=min(round(frame.height, 4), round(1 - y, 4)),
            drawn_at=self.now,
        )
