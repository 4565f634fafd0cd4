"""Pictures as they are printed: the bytes of a size that suits paper."""

from django.utils.translation import gettext as _

from species.documents.printed_picture import PrintedPicture
from species.models import PhotoRendition
from species.queries.pictures import Picture


def printed_picture(picture: Picture) -> PrintedPicture | None:
    """The largest JPEG of a picture with its words; None where the file is not there. One query."""
    key = picture.src.rstrip("/").split("/")[-2]
    row = (
        PhotoRendition.objects.filter(photo__key=key, media_type="image/jpeg", width__lte=1400)
        .order_by("-width")
        .first()
    )
    if row is None:
        return None
    try:
        with row.file.open("rb") as file:
            content = file.read()
    except FileNotFoundError:
        return None
    caption = _("Drawing, not a photograph") if picture.drawn else picture.credit
    return PrintedPicture(content, picture.alt, caption)
