"""What must not be true of a site that real people use."""

from typing import Any

from django.conf import settings
from django.core.checks import CheckMessage, Error, Tags, register


@register(Tags.security, deploy=True)
def demo_is_off(app_configs: Any, **kwargs: Any) -> list[CheckMessage]:
    """The demo opens the school to anybody without a code."""
    if not settings.DEMO:
        return []
    return [
        Error(
            "KENSPECKLE_DEMO is on: anybody may enter as an organiser without a code.",
            hint="Take KENSPECKLE_DEMO out of the environment and out of .var/settings.env.",
            id="courses.E001",
        )
    ]
