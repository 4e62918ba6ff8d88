"""``python -m webapp.packs.maker``: makes one pack, in a process of its own so that no tap is kept waiting.

Reads a job as JSON (see ``Wanted.job``) and writes the pack as JSON, packed with gzip.
"""

from __future__ import annotations

import gzip
import json
import os
import sys
from typing import Any

from engine.court import half_court
from engine.formations import FORMATIONS
from engine.pack import pack
from engine.rules import shipped
from webapp.design_schemas import read_formation, read_rules


def made(job: dict[str, Any]) -> bytes:
    """Return the pack of a job; the same job gives the same bytes."""
    rules, formation = job["rules"], job["formation"]
    ruling = shipped(rules) if isinstance(rules, str) else read_rules(rules)[1]
    shape = FORMATIONS[formation] if isinstance(formation, str) else read_formation(formation)[1]
    whole = job["head"] | {"pack": pack(shape, ruling, half_court(job["court"]))}
    text = json.dumps(whole, ensure_ascii=False, separators=(",", ":"))
    return gzip.compress(text.encode(), 9, mtime=0)


if __name__ == "__main__":
    if hasattr(os, "nice"):
        os.nice(10)  # taps go first
    sys.stdout.buffer.write(made(json.load(sys.stdin)))
