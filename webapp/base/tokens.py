"""Secrets for links, keys and codes: made at random, shown once, kept only as a hash."""

from __future__ import annotations

import hashlib
import hmac
import secrets
from typing import Final

#: 24 random bytes are 192 bits.
_TOKEN_BYTES: Final = 24
_ID_BYTES: Final = 9

#: Letters and digits that are not taken for one another: no 0 O, 1 I L, 2 Z, 5 S, 8 B, U V.
CODE_LETTERS: Final = "34679ACDEFGHJKMNPQRTWXY"
CODE_LENGTH: Final = 6


def new_token() -> str:
    """Return a new secret, fit to stand in an address."""
    return secrets.token_urlsafe(_TOKEN_BYTES)


def new_id() -> str:
    """Return a new name for a thing; no secret, but not to be guessed by counting."""
    return secrets.token_urlsafe(_ID_BYTES)


def new_code(length: int = CODE_LENGTH) -> str:
    """Return a new code to be read and typed; each letter carries log2(23) = 4.52 random bits."""
    return "".join(secrets.choice(CODE_LETTERS) for _ in range(length))


def tidy_code(typed: str) -> str:
    """Return a code as it is kept, however it was typed: capitals, without spaces and dashes."""
    return "".join(letter for letter in typed.upper() if letter.isalnum())


def hashed(secret: str) -> str:
    """Return the SHA-256 of a secret in hex; enough for secrets that are random and long."""
    return hashlib.sha256(secret.encode("utf-8", "surrogatepass")).hexdigest()


def matches(secret: str, kept: str) -> bool:
    """Compare a secret with a kept hash in the same time wherever they differ."""
    return hmac.compare_digest(hashed(secret), kept)
