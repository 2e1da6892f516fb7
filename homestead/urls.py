"""One origin: the interface under /api/, the built application at /."""

from django.urls import include, path

urlpatterns = [path("api/v1/", include("api.urls"))]
