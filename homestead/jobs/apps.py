from django.apps import AppConfig


class JobsConfig(AppConfig):
    name = "homestead.jobs"
    label = "jobs"
