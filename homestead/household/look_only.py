"""Admin pages on which nothing can be changed: what phones must hear of is changed by lines."""

from __future__ import annotations

from typing import Any

from django.contrib import admin
from django.http import HttpRequest


class LookOnly(admin.ModelAdmin[Any]):
    """Base of such pages."""

    def has_add_permission(self, request: HttpRequest) -> bool:
        return False

    def has_change_permission(self, request: HttpRequest, obj: Any | None = None) -> bool:
        return False

    def has_delete_permission(self, request: HttpRequest, obj: Any | None = None) -> bool:
        return False
