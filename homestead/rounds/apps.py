from django.apps import AppConfig


class RoundsConfig(AppConfig):
    name = "homestead.rounds"
    label = "rounds"
