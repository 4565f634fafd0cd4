"""Addresses of this room."""

from django.urls import URLPattern

app_name = "species"
urlpatterns: list[URLPattern] = []
