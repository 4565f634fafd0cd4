"""Drawing one piece of the look, as a page would include it."""

from dataclasses import dataclass, field
from typing import Any

from django.template import RequestContext, Template
from django.test import RequestFactory


@dataclass(frozen=True)
class Sample:
    """One piece: its file in templates/pieces, the words that follow `with`, and what they refer to."""

    piece: str
    inputs: str = ""
    context: dict[str, Any] = field(default_factory=dict)

    @property
    def markup(self) -> str:
        given = f" with {self.inputs}" if self.inputs else ""
        return f'{{% include "pieces/{self.piece}.html"{given} only %}}'


def drawn(markup: str, **context: Any) -> str:
    request = RequestFactory().get("/plants/?q=cow")
    full = RequestContext(request)
    full.update(context)
    return Template(markup).render(full)


def piece(piece_name: str, inputs: str = "", **context: Any) -> str:
    return drawn(Sample(piece_name, inputs).markup, **context)
