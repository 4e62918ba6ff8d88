"""``python -m webapp.packs.maker``: makes one pack, in a process of its own so that no tap is kept waiting.

Reads a job as JSON (see ``Wanted.job``) and writes the pack as JSON, packed with gzip.
"""

from __future__ import annotations

import gzip
import json
import os
import sys
from typing import Any

from engine.floor.court import half_court
from engine.floor.formations import FORMATIONS, Formation
from engine.pack import pack
from engine.rules.rule_sets import RuleSet, shipped


def made(job: dict[str, Any]) -> bytes:
    """Return the pack of a job; the same job gives the same bytes."""
    made_of = pack(_shape(job["formation"]), _ruling(job["rules"]), half_court(job["court"]))
    text = json.dumps(made_of, ensure_ascii=False, separators=(",", ":"))
    return gzip.compress(text.encode(), 9, mtime=0)


# What reads a team's own takes a while to load: only where there is something to read.


def _ruling(rules: str | dict[str, Any]) -> RuleSet:
    if isinstance(rules, str):
        return shipped(rules)
    from webapp.team.design_schemas import read_rules

    return read_rules(rules)[1]


def _shape(formation: str | dict[str, Any]) -> Formation:
    if isinstance(formation, str):
        return FORMATIONS[formation]
    from webapp.team.design_schemas import read_formation

    return read_formation(formation)[1]


if __name__ == "__main__":
    if hasattr(os, "nice"):
        os.nice(10)  # taps go first
    sys.stdout.buffer.write(made(json.load(sys.stdin)))
