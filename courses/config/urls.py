"""The addresses of the whole site, room by room."""

from django.urls import include, path

import courses.config.checks  # noqa: F401 (registers itself: nothing else would load it)

urlpatterns = [
    path("account/", include("allauth.urls")),
    path("", include("species.urls")),
    path("", include("assessments.urls")),
    path("", include("courses.urls")),
]
