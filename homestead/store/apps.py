from django.apps import AppConfig


class StoreConfig(AppConfig):
    name = "homestead.store"
    label = "store"
