from django.apps import AppConfig


class PhotosConfig(AppConfig):
    name = "homestead.photos"
    label = "photos"
