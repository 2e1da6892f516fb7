from django.apps import AppConfig


class ByproductsConfig(AppConfig):
    name = "homestead.byproducts"
    label = "byproducts"
