from __future__ import annotations

from django.contrib import admin

from homestead.photos.models import Photo


@admin.register(Photo)
class PhotoAdmin(admin.ModelAdmin[Photo]):
    list_display = ("household", "sha256", "width", "height", "kept_bytes", "received_at")
    readonly_fields = list_display
