"""Why a step with a specimen was refused, in sentences."""

from collections.abc import Iterable

from django.utils.translation import gettext_lazy

from species.rules.bank import Why

SENTENCES = {
    Why.IN_USE: gettext_lazy(
        "Somebody has been asked about this specimen ({uses}), so it stays as it is. If it must not be used any "
        "more, take it out of the bank."
    ),
    Why.WAS_PUBLIC: gettext_lazy(
        "This specimen has borne a name, so everybody could see its pictures on the page of that plant. Nobody "
        "can be tested with it any more; photograph another plant."
    ),
    Why.NO_STAGE: gettext_lazy("Say first in which stage the plant is: nobody can be tested without it."),
    Why.DAY_AHEAD: gettext_lazy("The day of the find lies ahead; correct the date."),
    Why.RETIRED: gettext_lazy("This specimen was taken out of the bank already."),
    Why.OTHER_USE: gettext_lazy(
        "The specimen of that name, place and day serves for the other use, and one specimen never serves for "
        "both; correct the use, or give it another specimen."
    ),
}


def sentence_on_step(why: Why, uses: Iterable[str] = ()) -> str:
    """One refusal in a sentence that says what to do."""
    return str(SENTENCES[why]).format(uses=", ".join(uses))
