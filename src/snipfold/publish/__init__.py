"""Published files: one file an output format, and the folder that holds them."""

from .folder import MANIFEST, Progress, PublishError, publish_design
from .formats import FORMATS, Format

__all__ = ["FORMATS", "MANIFEST", "Format", "Progress", "PublishError", "publish_design"]
