"""The addresses of the whole site, room by room."""

from django.urls import include, path

urlpatterns = [
    path("account/", include("allauth.urls")),
    path("", include("species.urls")),
    path("", include("assessments.urls")),
    path("", include("courses.urls")),
]
