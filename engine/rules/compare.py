"""Two rule sets side by side: what differs, as phrases for the language's "differences"."""

from __future__ import annotations

from engine.rules.rule_sets import RuleSet
from engine.rules.vocabulary import TRIGGERS

Difference = tuple[str, dict[str, str]]


def differences(one: RuleSet, other: RuleSet) -> tuple[Difference, ...]:
    """Return what differs between two rule sets, in the order of the vocabulary; empty if they agree.

    Keys: ``only_one`` and ``only_other`` (``action`` installed in one of them), ``posts``, ``cutter`` (the
    places, joined by a comma), ``response`` (``trigger``, ``role``, and the movements ``one`` and ``other``,
    joined by a comma, empty for none).
    """
    found: list[Difference] = []
    for kind in sorted((one.actions | one.lane) - (other.actions | other.lane)):
        found.append(("only_one", {"action": kind}))
    for kind in sorted((other.actions | other.lane) - (one.actions | one.lane)):
        found.append(("only_other", {"action": kind}))
    if one.posts != other.posts:
        found.append(("posts", {"one": _posts(one), "other": _posts(other)}))
    if one.cutter != other.cutter:
        found.append(("cutter", {"one": ",".join(one.cutter), "other": ",".join(other.cutter)}))
    for trigger, roles in TRIGGERS.items():
        for role in roles:
            a, b = _response(one, trigger, role), _response(other, trigger, role)
            if a != b:
                about = {"trigger": trigger, "role": role, "one": ",".join(a), "other": ",".join(b)}
                found.append(("response", about))
    return tuple(found)


def _posts(rules: RuleSet) -> str:
    return "" if rules.posts is None else str(rules.posts)


def _response(rules: RuleSet, trigger: str, role: str) -> tuple[str, ...]:
    return rules.responses.get(trigger, {}).get(role, ())
