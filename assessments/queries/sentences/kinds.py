"""What the kinds of question are called."""

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

WORDS: dict[str, Promise] = {
    "name_and_decide": _("Name it and decide"),
    "which_character": _("Which character tells"),
    "point_at_it": _("Point at it"),
    "side_by_side": _("Side by side"),
}


def kind_word(key: str) -> str:
    """What a kind of question is called; one without words of its own by its key."""
    return str(WORDS.get(key) or key.replace("_", " ").capitalize())
