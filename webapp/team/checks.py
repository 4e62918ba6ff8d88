"""Running checks: a few at a time, each told of line by line, and stopped when nobody listens any more."""

from __future__ import annotations

import json
import logging
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import copy_context
from queue import SimpleQueue
from typing import TYPE_CHECKING, Any, Final

from engine.floor.court import Court
from engine.floor.formations import Formation
from engine.game.licences import Licences
from engine.rules.rule_sets import SHIPPED, RuleSet, shipped
from engine.words.spoken import say
from webapp.wire.refusals import Refused

if TYPE_CHECKING:
    from engine.checker import Report
    from webapp.services import Services

_LOG: Final = logging.getLogger("quintet")


class Checks:
    """The places there are for work that takes a processor for seconds.

    ``wait_s``: how long a short piece of work waits for one.
    """

    def __init__(self, most: int, longest_s: float, wait_s: float = 10.0) -> None:
        self._places = threading.BoundedSemaphore(most)
        self.longest_s, self._wait_s = longest_s, wait_s

    def take(self) -> None:
        """Take a place, to be given :meth:`back`. Raises ``Refused`` (``busy``) if there is none."""
        if not self._places.acquire(blocking=False):
            raise Refused("busy")

    def back(self) -> None:
        """Give a place back."""
        self._places.release()

    @contextmanager
    def place(self) -> Iterator[None]:
        """Take a place for a short piece of work, waiting for it. Raises ``Refused`` (``busy``)."""
        if not self._places.acquire(timeout=self._wait_s):
            raise Refused("busy")
        try:
            yield
        finally:
            self.back()


class _Stopped(Exception):
    """Nobody listens any more, or the server stops."""


class _TooLong(Exception):
    """The check has had its time."""


class Checking:
    """One check under way: an iterator of lines of JSON. :meth:`stop` ends it early.

    It works in a thread of its own that holds one of the places, and gives it back however it ends.
    """

    def __init__(
        self, shared: Services, rules: RuleSet, formation: Formation, court: Court, licences: Licences
    ) -> None:
        self._shared = shared
        self._lines: SimpleQueue[dict[str, Any] | None] = SimpleQueue()
        self._stop = threading.Event()
        self._until = time.monotonic() + shared.checks.longest_s
        shared.checks.take()
        checked = (self._run, rules, formation, court, licences)
        work = threading.Thread(target=copy_context().run, args=checked, daemon=True)
        work.start()

    def stop(self) -> None:
        """End the check at its next look, if it has not ended."""
        self._stop.set()

    def __iter__(self) -> Iterator[str]:
        while (line := self._lines.get()) is not None:
            yield json.dumps(line, ensure_ascii=False) + "\n"

    def _run(self, rules: RuleSet, formation: Formation, court: Court, licences: Licences) -> None:
        from engine.checker import check

        try:
            report = check(rules, formation, court, licences, self._look)
            self._lines.put({"report": _wire(report, rules)})
        except _Stopped:
            pass
        except _TooLong:
            self._fail("too_long")
        except Exception:
            _LOG.exception("a check failed")
            self._fail("failed")
        finally:
            self._shared.checks.back()
            self._lines.put(None)

    def _look(self, looked_at: int, known: int) -> None:
        if self._stop.is_set() or self._shared.relay.stopping:
            raise _Stopped
        if time.monotonic() > self._until:
            raise _TooLong
        self._lines.put({"progress": [looked_at, known]})

    def _fail(self, code: str) -> None:
        self._lines.put({"error": {"code": code, "message": say(f"answers.{code}")}})


def checking(
    shared: Services, rules: RuleSet, formation: Formation, court: Court, licences: Licences
) -> Checking:
    """Begin a check. Raises ``Refused`` (``busy``) if as many are running as may."""
    return Checking(shared, rules, formation, court, licences)


def _wire(report: Report, rules: RuleSet) -> dict[str, Any]:
    return {
        "positions": report.positions,
        "steps": report.steps,
        "findings": [
            {
                "kind": finding.kind,
                "about": dict(finding.about),
                "chain": list(finding.chain),
                "count": finding.count,
                "why": _why(rules, finding.why),
            }
            for finding in report.findings
        ],
    }


def _why(rules: RuleSet, why: str | None) -> str | None:
    """Return why something is meant to be so; what ships says it in the language spoken."""
    if why is None or rules.name not in SHIPPED or rules is not shipped(rules.name):
        return why
    number = next(number for number, known in enumerate(rules.known, start=1) if known.why == why)
    return say(f"rule_sets.{rules.name}.known.{number}")
