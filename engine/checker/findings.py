"""What the checker reports, as values; their words are in engine/locales under "findings"."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Final

from engine.rules.rule_sets import Known

#: Every kind of finding, in the order they are shown: what stops play first.
KINDS: Final = (
    "no_response",
    "two_responses",
    "same_spot",
    "off_spots",
    "stuck_cutter",
    "only_shot",
    "never",
    "close",
    "no_balance",
    "through",
    "three_seconds",
)


#: Those that keep an action from being legal where they come up.
FAULTS: Final = frozenset(("no_response", "two_responses", "same_spot", "off_spots"))


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing wrong with a rule set.

    ``about``: what it is said of: ``trigger``, ``role``, ``spot``, ``action`` and so on, as far as the kind
    has them. ``chain``: the shortest chain of actions, from the start, that shows it; the last one is the
    action that fails where an action fails, and it is empty where nothing can be shown. ``count``: in how
    many positions it happens. ``why``: the rule set's own word on why it is meant to be so, if it has one.
    """

    kind: str
    about: Mapping[str, str]
    chain: tuple[str, ...] = ()
    count: int = 1
    why: str | None = None


@dataclass(frozen=True, slots=True)
class Report:
    """All findings, and how much was looked at: positions, and steps between them."""

    findings: tuple[Finding, ...]
    positions: int
    steps: int


@dataclass(slots=True)
class _First:
    chain: tuple[str, ...]
    count: int
    told: Mapping[str, str]


@dataclass(slots=True)
class Notebook:
    """Findings in the making: the first chain of each, which is the shortest, and how often it came up.

    What is told of that chain alone, such as who is sent where in it, does not tell findings apart.
    """

    found: dict[tuple[str, tuple[tuple[str, str], ...]], _First] = field(default_factory=dict)

    def seen(self, kind: str, about: Mapping[str, str]) -> bool:
        """Count one more, and say whether it had come up before."""
        key = kind, tuple(sorted(about.items()))
        if key not in self.found:
            return False
        self.found[key].count += 1
        return True

    def add(
        self,
        kind: str,
        about: Mapping[str, str],
        chain: tuple[str, ...],
        count: int = 1,
        told: Mapping[str, str] | None = None,
    ) -> None:
        """Write down a finding that has not come up before; ``told`` is what is said of ``chain`` alone."""
        self.found[kind, tuple(sorted(about.items()))] = _First(chain, count, told or {})

    def explains(self, action: str) -> bool:
        """Whether something that is wrong with an action is written down."""
        return any(("action", action) in about and kind in FAULTS for kind, about in self.found)

    def findings(self, known: Iterable[Known]) -> tuple[Finding, ...]:
        """Return all, in the order of ``KINDS``, then by length of chain."""
        known = tuple(known)
        made = [
            Finding(kind, {**dict(about), **it.told}, it.chain, it.count, _why(kind, dict(about), known))
            for (kind, about), it in self.found.items()
        ]
        return tuple(sorted(made, key=lambda f: (KINDS.index(f.kind), len(f.chain), sorted(f.about.items()))))


def _why(kind: str, about: Mapping[str, str], known: Iterable[Known]) -> str | None:
    names = {kind, *(f"{kind}:{value}" for value in about.values())}
    return next((item.why for item in known if item.finding in names), None)
