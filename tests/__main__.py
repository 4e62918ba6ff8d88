"""``python3 -m tests``: set up on first use, find a browser, then run every test.

Words after the command go to pytest: ``python3 -m tests tests/engine -k drive``. ``--deep`` looks harder: the
same tests with more seeds, examples, taps and kills (``tests/depth.py``); it takes an hour or so.
"""

from __future__ import annotations

import os
import subprocess
import sys

from tests.depth import VARIABLE
from webapp.bootstrap import ROOT, ensure

#: Files are given out to the workers, what takes long first (``tests/timing.py``). Three: a test in a browser
#: waits for half its time, and two processors would wait with two of them.
ALL = ["-n", "3", "--dist", "loadfile"]

if __name__ == "__main__":
    ensure("tests", ["test"])
    from e2e.browser import NO_BROWSER, find_browser

    browser = find_browser()
    if browser is None:
        sys.exit(NO_BROWSER)
    environment = {**os.environ, "QUINTET_BROWSER": browser}
    # Every server of the tests would compile all of the code again.
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    words = sys.argv[1:]
    if "--deep" in words:
        words.remove("--deep")
        environment[VARIABLE] = "yes"
    sys.exit(subprocess.call([sys.executable, "-m", "pytest", *(words or ALL)], cwd=ROOT, env=environment))
