"""The pages of worked out tables show everything and change nothing."""

from __future__ import annotations

import pytest
from django.apps import apps
from django.contrib import admin
from django.test import Client
from django.urls import reverse

from tests.factories import Home
from tests.kinds.winter import Winter

ROOMS = ("store", "rounds", "byproducts")
SHOWN = [model for model in admin.site._registry if model._meta.app_label in ROOMS]


def test_every_table_has_a_page_or_stands_on_one() -> None:
    tables = {model for room in ROOMS for model in apps.get_app_config(room).get_models()}
    inside = {inline.model for page in admin.site._registry.values() for inline in page.inlines}
    assert tables == set(SHOWN) | inside


@pytest.mark.urls("tests.kinds.admin_urls")
def test_a_page_shows_its_rows_and_takes_no_change(home: Home, admin_client: Client) -> None:
    winter = Winter(home)
    home.write_lines(list(winter.lines().values()))
    home.edit("chore", {"name": "Shut the hens in"})
    home.edit("crop", {"name": "Pointed cabbage"})
    home.edit("weekly_use", {"crop": "carrot", "grams": 1_500})
    home.edit("guests", {"number": 4, "from": "2026-12-24", "until": "2026-12-27"})
    home.edit("vessel", {"name": "A basin", "grams": 3_400})
    home.edit("figure", {"table": "piece_weights", "key": "carrot", "column": "piece_g", "value": 120})
    for model in SHOWN:
        row = model.rows.of(home.id).first()
        name = f"admin:{model._meta.app_label}_{model._meta.model_name}"
        assert admin_client.get(reverse(f"{name}_changelist")).status_code == 200, model
        page = reverse(f"{name}_change", args=[row.pk])
        assert admin_client.get(page).status_code == 200, model
        assert admin_client.post(page, {"notes": "changed"}).status_code == 403, model
        assert admin_client.post(reverse(f"{name}_delete", args=[row.pk]), {"post": "yes"}).status_code == 403
        assert admin_client.get(reverse(f"{name}_add")).status_code == 403, model
