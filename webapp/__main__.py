"""``python3 -m webapp``: set up on first use, then serve. ``--help`` lists the options and other commands."""

from __future__ import annotations

import gc
import sys

from webapp.bootstrap import ensure

if __name__ == "__main__":
    ensure("webapp")
    if sys.argv[1:2] in (["backup"], ["restore"]):
        from webapp.backup.subcommands import main
    else:
        # What is made while starting stays: looking through it for garbage is a fifth of the time that takes.
        gc.disable()
        from webapp.serving.command import main

    sys.exit(main(sys.argv[1:]))
