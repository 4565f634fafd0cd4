"""Settings of the site as it is served to the load of `sitting_load`: a school's own, with one address more."""

from courses.config.settings import *  # noqa: F403

ROOT_URLCONF = "tests.bench.served_addresses"
ALLOWED_HOSTS = ["127.0.0.1"]
