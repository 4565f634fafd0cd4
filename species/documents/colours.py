"""From the colour space that a file names to the one that every screen assumes, before the profile is dropped."""

import io

from PIL import Image, ImageCms

_SRGB = ImageCms.createProfile("sRGB")
_LARGEST_PROFILE = 4_000_000
"""Bytes; printers' profiles are large, anything above is no profile that a camera writes."""
_MODES = ("RGB", "L", "CMYK")


def in_srgb(image: Image.Image, profile: bytes | None) -> Image.Image:
    """The picture in sRGB. A profile that cannot be read, or does not fit the picture, changes nothing."""
    if not profile or len(profile) > _LARGEST_PROFILE or image.mode not in _MODES:
        return image
    try:
        source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        if _is_srgb(source):
            return image
        turned = ImageCms.profileToProfile(image, source, _SRGB, outputMode="RGB")
    except (ImageCms.PyCMSError, OSError, ValueError, TypeError):
        return image
    return turned or image


def _is_srgb(profile: ImageCms.ImageCmsProfile) -> bool:
    """Most cameras name sRGB itself: then there is nothing to turn."""
    return "sRGB" in ImageCms.getProfileDescription(profile)
