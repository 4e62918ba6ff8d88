"""What comes in to add a device: what a code is to give, and a code as it was typed."""

from __future__ import annotations

from typing import Final

from marshmallow import Schema, fields, validate

from engine.words.spoken import later

#: A recovery sheet's code with a space or dash after every letter is shorter.
TYPED_MAX_CHARS: Final = 64


class _NewDeviceCode(Schema):
    role = fields.String(required=True, validate=validate.OneOf(("head_coach", "assistant")))


class _AddDevice(Schema):
    code = fields.String(
        required=True,
        validate=validate.Length(1, TYPED_MAX_CHARS, error=later("refusals.adding.must_have_letters_digits")),
    )
    #: Sent by the app on the home screen, whose key is apart from the browser's.
    app = fields.String(validate=validate.OneOf(("yes",)))


class _Nothing(Schema):
    pass


NEW_DEVICE_CODE: Final[Schema] = _NewDeviceCode()
ADD_DEVICE: Final[Schema] = _AddDevice()
NOTHING: Final[Schema] = _Nothing()
