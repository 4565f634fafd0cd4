"""The one settings module. What differs between places comes from the environment, or from the file
`.var/settings.env` that `open_school` writes; everything written at run time lies in `.var/`."""

from pathlib import Path
from urllib.parse import urlsplit

import dj_database_url
from csp.constants import NONE, SELF
from django.utils.translation import gettext_lazy as _

from courses.config.reading import Environment, secret, settings_file

BASE_DIR = Path(__file__).resolve().parents[2]
VAR_DIR = Path(Environment({}).word("KENSPECKLE_VAR") or BASE_DIR / ".var")
env = Environment(settings_file(VAR_DIR / "settings.env"))

# DEMO is set by `manage.py demo`, which also marks `.var/` with it, and by the tests; never by hand. It opens
# one-tap entry without a code, and it is the only place where drawings count.
DEMO = env.switch("KENSPECKLE_DEMO")
DEBUG = env.switch("KENSPECKLE_DEBUG")
SECRET_KEY = env.word("KENSPECKLE_SECRET_KEY") or secret(VAR_DIR / "keys", "secret_key")
SECRET_KEY_FALLBACKS = [word for word in env.word("KENSPECKLE_OLD_SECRET_KEYS").split() if word]

# WebAuthn wants a name, so the demo is served at localhost and not at 127.0.0.1.
PUBLIC_ADDRESS = env.address("KENSPECKLE_ADDRESS", "http://localhost:8000")
_public = urlsplit(PUBLIC_ADDRESS)
ALLOWED_HOSTS = [_public.hostname or "localhost"]
if _public.hostname == "localhost":
    ALLOWED_HOSTS += ["127.0.0.1", "[::1]"]
CSRF_TRUSTED_ORIGINS = [PUBLIC_ADDRESS]
IS_ENCRYPTED = _public.scheme == "https"

INSTALLED_APPS = [
    "courses",
    "assessments",
    "species",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "django.forms",
    "crispy_forms",
    "django_htmx",
    "csp",
    "simple_history",
    "allauth",
    "allauth.account",
    "allauth.mfa",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "csp.middleware.CSPMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.locale.LocaleMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "allauth.account.middleware.AccountMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "simple_history.middleware.HistoryRequestMiddleware",
    "courses.config.middleware.school_day",
    "courses.config.middleware.second_factor",
]

ROOT_URLCONF = "courses.config.urls"
WSGI_APPLICATION = "courses.config.wsgi.application"

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "courses.config.context.school",
            ],
        },
    },
]

# Form fields are drawn with the templates of the house where it has one.
FORM_RENDERER = "django.forms.renderers.TemplatesSetting"

DATABASES = {
    "default": dj_database_url.parse(
        env.word("KENSPECKLE_DATABASE") or f"sqlite:///{VAR_DIR / 'school.sqlite3'}", conn_max_age=60
    )
}
if DATABASES["default"]["ENGINE"] == "django.db.backends.sqlite3":
    # No mmap_size: with it this generation of SQLite damaged files under load. FULL survives a power cut.
    DATABASES["default"]["OPTIONS"] = {
        "timeout": 20,
        "transaction_mode": "IMMEDIATE",
        "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;",
    }
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

STORAGES = {
    "default": {
        "BACKEND": "django.core.files.storage.FileSystemStorage",
        "OPTIONS": {"location": VAR_DIR / "files"},
    },
    "photos": {
        "BACKEND": "django.core.files.storage.FileSystemStorage",
        "OPTIONS": {"location": VAR_DIR / "photos"},
    },
    "staticfiles": {"BACKEND": "whitenoise.storage.CompressedManifestStaticFilesStorage"},
}
STATIC_URL = "static/"
STATIC_ROOT = VAR_DIR / "static"
FILE_UPLOAD_PERMISSIONS = 0o640
DATA_UPLOAD_MAX_MEMORY_SIZE = 2_500_000

LANGUAGE_CODE = env.word("KENSPECKLE_LANGUAGE", "en-gb")
LANGUAGES = [("en-gb", _("English")), ("de", _("German")), ("ga", _("Irish"))]
if LANGUAGE_CODE not in {code for code, _name in LANGUAGES}:
    LANGUAGES = [*LANGUAGES, (LANGUAGE_CODE, _(LANGUAGE_CODE))]
LOCALE_PATHS = [BASE_DIR / "courses" / "locale"]
TIME_ZONE = env.time_zone("KENSPECKLE_TIME_ZONE", "Europe/London")
USE_I18N = True
FORMAT_MODULE_PATH = "courses.config.formats"
USE_TZ = True

AUTHENTICATION_BACKENDS = ["allauth.account.auth_backends.AuthenticationBackend"]
LOGIN_URL = "account_login"
LOGIN_REDIRECT_URL = "courses:home"
LOGOUT_REDIRECT_URL = "courses:home"
ACCOUNT_LOGIN_METHODS = {"email"}
ACCOUNT_SIGNUP_FIELDS = ["email*"]
ACCOUNT_LOGIN_BY_CODE_ENABLED = True
ACCOUNT_LOGIN_BY_CODE_TIMEOUT = 600
ACCOUNT_EMAIL_VERIFICATION = "mandatory"
ACCOUNT_EMAIL_VERIFICATION_BY_CODE_ENABLED = True
ACCOUNT_UNIQUE_EMAIL = True
ACCOUNT_EMAIL_UNKNOWN_ACCOUNTS = False
ACCOUNT_EMAIL_SUBJECT_PREFIX = ""
ACCOUNT_ADAPTER = "courses.config.sign_in.InvitedOnly"
ACCOUNT_SESSION_REMEMBER = True
MFA_FORMS = {"activate_totp": "courses.forms.sign_in.AuthenticatorForm"}
# In the invented school roles are tried out with a press of a button.
STAFF_NEED_A_SECOND_FACTOR = not (DEBUG or DEMO)
MFA_SUPPORTED_TYPES = ["totp", "webauthn", "recovery_codes"]
MFA_PASSKEY_LOGIN_ENABLED = True
MFA_WEBAUTHN_ALLOW_INSECURE_ORIGIN = DEBUG or DEMO

SESSION_COOKIE_AGE = 60 * 60 * 24 * 30
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = CSRF_COOKIE_SAMESITE = "Lax"
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = IS_ENCRYPTED
if IS_ENCRYPTED:
    SESSION_COOKIE_NAME, CSRF_COOKIE_NAME = "__Host-sessionid", "__Host-csrftoken"
    SECURE_HSTS_SECONDS = 60 * 60 * 24 * 365
    SECURE_HSTS_INCLUDE_SUBDOMAINS = SECURE_HSTS_PRELOAD = True
    SECURE_SSL_REDIRECT = env.switch("KENSPECKLE_REDIRECT_TO_HTTPS", default=True)
    if env.switch("KENSPECKLE_BEHIND_PROXY"):
        SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [NONE],
        "script-src": [SELF],
        "style-src": [SELF],
        "img-src": [SELF],
        "font-src": [SELF],
        "connect-src": [SELF],
        "manifest-src": [SELF],
        "worker-src": [SELF],
        "form-action": [SELF],
        "frame-ancestors": [NONE],
        "base-uri": [NONE],
        "object-src": [NONE],
    }
}

CRISPY_ALLOWED_TEMPLATE_PACKS = CRISPY_TEMPLATE_PACK = "flora"

EMAIL_BACKEND = (
    "courses.config.mail.KeptMail"
    if DEMO
    else env.word("KENSPECKLE_MAIL_BACKEND", "django.core.mail.backends.smtp.EmailBackend")
)
EMAIL_HOST = env.word("KENSPECKLE_MAIL_HOST", "localhost")
EMAIL_PORT = env.number("KENSPECKLE_MAIL_PORT", 25, lowest=1)
EMAIL_HOST_USER = env.word("KENSPECKLE_MAIL_USER")
EMAIL_HOST_PASSWORD = env.word("KENSPECKLE_MAIL_PASSWORD")
EMAIL_USE_TLS = env.switch("KENSPECKLE_MAIL_STARTTLS")
EMAIL_TIMEOUT = 20
LETTERS_AT_ONCE = DEMO or env.switch("KENSPECKLE_MAIL_AT_ONCE")  # otherwise `manage.py work` posts them
DEFAULT_FROM_EMAIL = env.word("KENSPECKLE_MAIL_FROM", f"school@{_public.hostname}")

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"plain": {"format": "{asctime} {levelname} {name} {message}", "style": "{"}},
    "handlers": {"console": {"class": "logging.StreamHandler", "formatter": "plain"}},
    "root": {"handlers": ["console"], "level": env.word("KENSPECKLE_LOG_LEVEL", "INFO")},
}
SILENCED_SYSTEM_CHECKS: list[str] = []

# Signs: a specimen set aside for assessment must be a photograph, except where the school is invented.
DRAWINGS_COUNT = DEMO
# The report of a standard names those who assessed before anybody held a certificate; this question knows them.
FOUNDING_ASSESSORS = "courses.queries.founders.founders"
# Answers about a dangerous living plant are confirmed by those who hold a current pair of it; this question knows them.
ASSESSOR_COMPETENCE = "courses.queries.competence.competence_of"
# Photographs as they come in: limits checked before decoding.
PHOTO_LARGEST_BYTES = 40_000_000
PHOTO_LARGEST_PIXELS = 100_000_000
PHOTO_WIDTHS = (400, 800, 1200, 1600)  # the third is the widest that a telephone asks for

# What is told in confidence goes so many days after the last meeting of a course.
OFFERS_LAST_HOURS = env.number("KENSPECKLE_OFFERS_LAST_HOURS", 72, lowest=1)  # a free place is kept so long
ENQUIRIES_KEPT_DAYS = env.number("KENSPECKLE_ENQUIRIES_KEPT_DAYS", 365, lowest=1)
HEALTH_NOTES_KEPT_DAYS = env.number("KENSPECKLE_HEALTH_NOTES_KEPT_DAYS", 14, lowest=0)
