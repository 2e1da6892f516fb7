from __future__ import annotations

from typing import Any


class QueueRouter:
    """Queue tables live in a SQLite file of their own, so that the queue never locks the ledger."""

    def db_for_read(self, model: Any, **hints: Any) -> str | None:
        return "queue" if model._meta.app_label == "django_q" else None

    db_for_write = db_for_read

    def allow_migrate(self, db: str, app_label: str, **hints: Any) -> bool | None:
        if app_label == "django_q":
            return db == "queue"
        return False if db == "queue" else None
