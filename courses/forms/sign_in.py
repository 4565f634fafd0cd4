"""Text into clean values: setting up an authenticator app, with the key as a picture for the camera."""

from allauth.mfa.adapter import get_adapter
from allauth.mfa.totp.forms import ActivateTOTPForm

from courses.documents.qr import QrShape, qr_shape


class AuthenticatorForm(ActivateTOTPForm):
    """The package's own form; its page also draws the key."""

    @property
    def picture(self) -> QrShape:
        """The key of this form as a QR code, in the form that apps read (otpauth://)."""
        return qr_shape(get_adapter().build_totp_url(self.user, self.secret))
