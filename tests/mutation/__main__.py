"""``python3 -m tests.mutation``: which faults in the code would no test notice? ``--help`` says more."""

from __future__ import annotations

from webapp.bootstrap import ensure

if __name__ == "__main__":
    ensure("tests.mutation", ["test"])
    from tests.mutation.command import main

    main()
