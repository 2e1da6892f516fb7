from django.apps import AppConfig


class SeasonConfig(AppConfig):
    name = "homestead.season"
    label = "season"
