from django.apps import AppConfig


class RemindersConfig(AppConfig):
    name = "homestead.reminders"
    label = "reminders"
