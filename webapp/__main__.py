"""``python3 -m webapp``: set up on first use, then serve. ``--help`` lists the options."""

from __future__ import annotations

import sys

from webapp.bootstrap import ensure

if __name__ == "__main__":
    ensure("webapp")
    from webapp.serve import main

    sys.exit(main(sys.argv[1:]))
