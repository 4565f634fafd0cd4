"""Whether this site can answer, for whatever watches it."""

import logging

from django.db import DatabaseError
from django.http import HttpRequest, HttpResponse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

from courses.queries.people import the_school


@never_cache
@require_safe
def healthz(request: HttpRequest) -> HttpResponse:
    """200 and "ok" when the database answers, otherwise 503."""
    try:
        the_school()
    except DatabaseError:
        logging.getLogger(__name__).exception("The database does not answer.")
        return HttpResponse("the database does not answer", status=503, content_type="text/plain; charset=utf-8")
    return HttpResponse("ok", content_type="text/plain; charset=utf-8")
