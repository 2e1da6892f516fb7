"""All settings in one file. Nothing needs to be set at home; a host sets them in the environment."""

from __future__ import annotations

import sqlite3
from typing import Any

import django_stubs_ext

from homestead import environment as env
from homestead.jobs import addresses, preflight

# lets `ModelAdmin[Lot]` and its like be written where types are checked and run
django_stubs_ext.monkeypatch()

BASE = env.BASE
DATA = env.DATA
DIST = env.path("ROUNDS_DIST", BASE / "frontend" / "dist")


#: checks and builds run without a key of their own; serving with this one is refused in `wsgi.py`
NO_SECRET = "not-secret" * 6
SECRET_KEY = env.secret("ROUNDS_SECRET_KEY", env.SECRET_KEY_FILE, NO_SECRET)
DEBUG = False
#: a page from elsewhere must not reach this computer under a name of its own choosing
ALLOWED_HOSTS = env.names(
    "ROUNDS_HOSTS",
    ["localhost", "127.0.0.1", "[::1]", ".local", *filter(None, [env.NAME, *addresses.own_numbers()])],
)
ROOT_URLCONF = "homestead.urls"
WSGI_APPLICATION = "homestead.wsgi.application"
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
USE_TZ = True
TIME_ZONE = "UTC"
LANGUAGE_CODE = "en"

INSTALLED_APPS = [
    "django.contrib.admin",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "rest_framework",
    "drf_spectacular",
    "django_q",
    "homestead.household.apps.HouseholdConfig",
    "homestead.ledger.apps.LedgerConfig",
    "homestead.photos.apps.PhotosConfig",
    "homestead.store.apps.StoreConfig",
    "homestead.rounds.apps.RoundsConfig",
    "homestead.byproducts.apps.ByproductsConfig",
    "homestead.season.apps.SeasonConfig",
    "homestead.reminders.apps.RemindersConfig",
    "homestead.jobs.apps.JobsConfig",
]

MIDDLEWARE = [
    "homestead.headers.ContentPolicy",
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
]

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
            ]
        },
    }
]


SQLITE_JOURNAL = env.one_of(
    "ROUNDS_SQLITE_JOURNAL", preflight.journal_mode(sqlite3.sqlite_version_info[:3]), ["WAL", "TRUNCATE"]
)


def _sqlite(name: str, synchronous: str) -> dict[str, Any]:
    """One SQLite file. IMMEDIATE: a transaction takes the write lock at once, so it never fails half way.

    The journal is set on every connection, since TRUNCATE does not persist in the file.
    """
    return {
        "ENGINE": "django.db.backends.sqlite3",
        "NAME": DATA / name,
        # a file in tests too, as threads of a test and two processes are to meet as they do in earnest
        "TEST": {"NAME": DATA / f"test-{name}"},
        "OPTIONS": {
            "timeout": 20,
            "transaction_mode": "IMMEDIATE",
            "init_command": f"PRAGMA journal_mode={SQLITE_JOURNAL}; PRAGMA synchronous={synchronous}; "
            "PRAGMA journal_size_limit=67108864;",
        },
    }


#: for many families, on PostgreSQL
HOSTED = bool(env.text("ROUNDS_PG_NAME", ""))
DATABASES: dict[str, dict[str, Any]]
if HOSTED:
    DATABASES = {
        "default": {
            "ENGINE": "django.db.backends.postgresql",
            "NAME": env.text("ROUNDS_PG_NAME", ""),
            "HOST": env.text("ROUNDS_PG_HOST", "127.0.0.1"),
            "PORT": env.number("ROUNDS_PG_PORT", 5432, 1, 65535),
            "USER": env.text("ROUNDS_PG_USER", "postgres"),
            "PASSWORD": env.text("ROUNDS_PG_PASSWORD", ""),
        }
    }
    DATABASE_ROUTERS: list[str] = []
else:
    # FULL: once told "accepted" a phone forgets to send again, so that must outlive a power cut.
    DATABASES = {"default": _sqlite("rounds.sqlite3", "FULL"), "queue": _sqlite("queue.sqlite3", "NORMAL")}
    DATABASE_ROUTERS = ["homestead.jobs.routers.QueueRouter"]

Q_CLUSTER: dict[str, Any] = {
    "name": "rounds",
    "workers": env.number("ROUNDS_WORKERS", 1, 1, 64),
    # A fresh worker loads numpy and scipy anew, a second or more. At home, with a night of a few pieces, the
    # memory of a worker that kept them counts for more.
    "recycle": 100 if HOSTED else 1,
    # Shorter than the silence after which the jobs count as dead, so that long work is not taken for death.
    "timeout": 240,
    "retry": 300,
    # Work that failed is asked for again by `homestead.jobs.work`, later and knowing why.
    "max_attempts": 1,
    "ack_failures": True,
    "poll": 2,
    "catch_up": False,
    "save_limit": 200,
    "log_level": "WARNING",
    "label": "jobs",
}
if env.text("ROUNDS_REDIS", ""):
    Q_CLUSTER["redis"] = env.text("ROUNDS_REDIS", "")
else:
    Q_CLUSTER["orm"] = "queue" if "queue" in DATABASES else "default"

STATIC_URL = "/static/"
STATIC_ROOT = DATA / "static"
WHITENOISE_ROOT = DIST
WHITENOISE_INDEX_FILE = True
WHITENOISE_MAX_AGE = 0
WHITENOISE_AUTOREFRESH = False
WHITENOISE_ALLOW_ALL_ORIGINS = False
WHITENOISE_USE_FINDERS = True
#: built parts carry their hash in their name: assets/Rounds-D4f1x9aB.js
WHITENOISE_IMMUTABLE_FILE_TEST = r"^/assets/.+-[A-Za-z0-9_-]{8}\.[a-z0-9]+$"
WHITENOISE_MIMETYPES = {".webmanifest": "application/manifest+json", ".crt": "application/x-x509-ca-cert"}

PHOTOS_DIR = env.path("ROUNDS_PHOTOS", DATA / "photos")
PHOTO_MAX_BYTES = env.number("ROUNDS_PHOTO_MAX_BYTES", 12_000_000, 100_000, 100_000_000)
STORAGES: dict[str, dict[str, Any]] = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
    "photos": {
        "BACKEND": "django.core.files.storage.FileSystemStorage",
        "OPTIONS": {"location": PHOTOS_DIR, "base_url": None},
    },
}

#: no token and no name of a photo reaches a log line, whoever writes it
LOGGING: dict[str, Any] = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {
        "masked": {
            "()": "homestead.masking.Masked",
            "format": "{asctime} {levelname} {name} {message}",
            "style": "{",
        }
    },
    "handlers": {"console": {"class": "logging.StreamHandler", "formatter": "masked"}},
    "root": {"handlers": ["console"], "level": "WARNING"},
    "loggers": {
        "django": {"handlers": [], "propagate": True},
        # a photo that is not here is no news
        "django.request": {"level": "ERROR"},
    },
}

#: on this very computer the invented household opens, and a first one is made, without a key; a host says no
OPEN_HERE = env.flag("ROUNDS_OPEN_HERE", "queue" in DATABASES)
#: so many proxies of one's own stand before this server; what they say of an asker's address is believed
PROXIES = env.number("ROUNDS_PROXIES", 0, 0, 5)
if PROXIES:
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
#: a page of an older build is asked to renew itself (426); raised when the wire changes
OLDEST_BUILD = 1

#: mail goes out by a server of one's own choosing, or not at all
SENDS_MAIL = bool(env.text("ROUNDS_MAIL_HOST", ""))
EMAIL_BACKEND = f"django.core.mail.backends.{'smtp' if SENDS_MAIL else 'dummy'}.EmailBackend"
EMAIL_HOST = env.text("ROUNDS_MAIL_HOST", "")
EMAIL_PORT = env.number("ROUNDS_MAIL_PORT", 587, 1, 65535)
EMAIL_HOST_USER = env.text("ROUNDS_MAIL_USER", "")
EMAIL_HOST_PASSWORD = env.text("ROUNDS_MAIL_PASSWORD", "")
EMAIL_USE_TLS = env.flag("ROUNDS_MAIL_TLS", True)
EMAIL_TIMEOUT = 20
DEFAULT_FROM_EMAIL = env.text("ROUNDS_MAIL_FROM", "rounds@localhost")
#: whom a push service may write to about this server (RFC 8292 section 2.1)
PUSH_SUBJECT = env.text("ROUNDS_PUSH_SUBJECT", f"mailto:{DEFAULT_FROM_EMAIL}")

REST_FRAMEWORK = {
    "DEFAULT_SCHEMA_CLASS": "api.schema.Schema",
    "DEFAULT_RENDERER_CLASSES": ["rest_framework.renderers.JSONRenderer"],
    "DEFAULT_PARSER_CLASSES": ["api.reading.BoundedJSON"],
    "DEFAULT_AUTHENTICATION_CLASSES": ["api.sign_in.DeviceAuthentication"],
    "DEFAULT_PERMISSION_CLASSES": ["api.sign_in.SignedIn"],
    "EXCEPTION_HANDLER": "api.problems.answer",
    "UNAUTHENTICATED_USER": None,
}
SPECTACULAR_SETTINGS = {
    "TITLE": "Winter Rounds",
    "VERSION": "1",
    "OAS_VERSION": "3.1.1",
    "SERVE_INCLUDE_SCHEMA": False,
    "ENUM_GENERATE_CHOICE_DESCRIPTION": False,
    "POSTPROCESSING_HOOKS": ["api.schema.answers_of_every_address"],
}
