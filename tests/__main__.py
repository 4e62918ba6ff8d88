"""``python3 -m tests``: set up on first use, find a browser, then run every test.

Words after the command go to pytest: ``python3 -m tests tests/engine -k drive``.
"""

from __future__ import annotations

import os
import subprocess
import sys

from webapp.bootstrap import ROOT, ensure

if __name__ == "__main__":
    ensure("tests", ["test"])
    from e2e.browser import NO_BROWSER, find_browser

    browser = find_browser()
    if browser is None:
        sys.exit(NO_BROWSER)
    environment = {**os.environ, "QUINTET_BROWSER": browser}
    words = sys.argv[1:] or ["-n", "2", "--dist", "worksteal"]
    sys.exit(subprocess.call([sys.executable, "-m", "pytest", *words], cwd=ROOT, env=environment))
