"""The form of each question kind, by the key that `rules.kinds.catalogue` lists it under."""

from collections.abc import Callable, Mapping

from assessments.models import Answer
from assessments.queries.flora import Flora

from . import name_and_decide
from .name_and_decide import NameAndDecide

InitialFrom = Callable[[Answer | None, Flora], dict[str, str]]
FORMS: Mapping[str, tuple[type[NameAndDecide], InitialFrom]] = {
    "name_and_decide": (NameAndDecide, name_and_decide.initial_from),
}
