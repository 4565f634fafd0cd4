"""What every action raises when it does not do what was asked."""

from collections.abc import Sequence


class Refused(Exception):
    """Nothing was changed. Each sentence says what is wrong, where, and what to do."""

    def __init__(self, *sentences: str) -> None:
        super().__init__(" ".join(sentences))
        self.sentences: Sequence[str] = sentences

    @property
    def sentence(self) -> str:
        return " ".join(self.sentences)
