"""What can go wrong when an action is given in words: three kinds, each one sentence to show a person."""

from __future__ import annotations


class QuintetError(ValueError):
    """Base of every error the engine raises about what it was given; ``str(error)`` is the sentence."""


class UnreadableAction(QuintetError):
    """The text is not the text form of any action."""


class IllegalAction(QuintetError):
    """The action can be read but is not legal in this position; the sentence says why."""


class AmbiguousAction(QuintetError):
    """The shortened text could mean two or more legal actions; the sentence names them."""
