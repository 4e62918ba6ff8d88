"""``python3 -m webapp``: set up on first use, then serve. ``--help`` lists the options and other commands."""

from __future__ import annotations

import sys

from webapp.bootstrap import ensure

if __name__ == "__main__":
    ensure("webapp")
    if sys.argv[1:2] in (["backup"], ["restore"]):
        from webapp.backup import main
    else:
        from webapp.serve import main

    sys.exit(main(sys.argv[1:]))
