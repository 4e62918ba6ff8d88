"""How hard the tests look: quick, as for every change, or deep, as before a release and at night.

Some checks can be made with any number of seeds, examples, taps or kills. ``deep(20, 200)`` is the number to
make one with: 20, or 200 in a run with ``python3 -m tests --deep``. No test is left out of a quick run.
"""

from __future__ import annotations

import os
from typing import TypeVar

#: Set to anything in a run that looks hard; ``--deep`` sets it.
VARIABLE = "QUINTET_DEEP"
DEEP = bool(os.environ.get(VARIABLE))

_T = TypeVar("_T")


def deep(quick: _T, deep: _T) -> _T:
    """Return ``quick``, or ``deep`` in a run that looks hard."""
    return deep if DEEP else quick
