"""All settings in one file. Nothing needs to be set at home; a host sets them in the environment."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from homestead import environment as env

BASE = Path(__file__).resolve().parent.parent
DATA = env.path("ROUNDS_DATA", BASE / ".data")
DIST = env.path("ROUNDS_DIST", BASE / "frontend" / "dist")


def _secret_key() -> str:
    """From the environment, else the file `start` made; else a key that protects nothing (checks, builds)."""
    kept = DATA / "secret-key"
    return env.text("ROUNDS_SECRET_KEY", kept.read_text().strip() if kept.exists() else "not-secret" * 6)


SECRET_KEY = _secret_key()
DEBUG = False
ALLOWED_HOSTS = env.names("ROUNDS_HOSTS", ["*"])
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
    "homestead.jobs.apps.JobsConfig",
]

MIDDLEWARE = [
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


def _sqlite(name: str) -> dict[str, Any]:
    """One SQLite file. IMMEDIATE: a transaction that will write takes the lock at once."""
    journal = env.text("ROUNDS_SQLITE_JOURNAL", "WAL")
    return {
        "ENGINE": "django.db.backends.sqlite3",
        "NAME": DATA / name,
        "OPTIONS": {
            "timeout": 20,
            "transaction_mode": "IMMEDIATE",
            "init_command": f"PRAGMA journal_mode={journal}; PRAGMA synchronous=NORMAL; "
            "PRAGMA journal_size_limit=67108864;",
        },
    }


DATABASES: dict[str, dict[str, Any]]
if env.text("ROUNDS_PG_NAME", ""):
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
    DATABASES = {"default": _sqlite("rounds.sqlite3"), "queue": _sqlite("queue.sqlite3")}
    DATABASE_ROUTERS = ["homestead.jobs.routers.QueueRouter"]

Q_CLUSTER: dict[str, Any] = {
    "name": "rounds",
    "workers": env.number("ROUNDS_WORKERS", 1, 1, 64),
    "recycle": 1,
    "timeout": 600,
    "retry": 900,
    "max_attempts": 5,
    "ack_failures": False,
    "poll": 2,
    "catch_up": False,
    "save_limit": 200,
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

PHOTOS_DIR = env.path("ROUNDS_PHOTOS", DATA / "photos")

REST_FRAMEWORK = {
    "DEFAULT_SCHEMA_CLASS": "drf_spectacular.openapi.AutoSchema",
    "DEFAULT_RENDERER_CLASSES": ["rest_framework.renderers.JSONRenderer"],
    "DEFAULT_PARSER_CLASSES": ["rest_framework.parsers.JSONParser"],
    "DEFAULT_AUTHENTICATION_CLASSES": [],
    "DEFAULT_PERMISSION_CLASSES": [],
    "UNAUTHENTICATED_USER": None,
}
SPECTACULAR_SETTINGS = {
    "TITLE": "Winter Rounds",
    "VERSION": "1",
    "OAS_VERSION": "3.1.1",
    "SERVE_INCLUDE_SCHEMA": False,
}
