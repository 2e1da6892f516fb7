"""One origin: the interface under /api/, pages for whoever runs the server, the built application at /."""

from django.contrib import admin
from django.urls import include, path

urlpatterns = [
    path("api/v1/", include("api.urls")),
    path("admin/", admin.site.urls),
]
