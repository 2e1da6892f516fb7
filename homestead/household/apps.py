from django.apps import AppConfig


class HouseholdConfig(AppConfig):
    name = "homestead.household"
    label = "household"
