"""A short chain that shows one trigger, so that a rule can be seen as soon as it is chosen."""

from __future__ import annotations

from engine.checker.explore import explore
from engine.floor.formations import Formation
from engine.game.effects import scene_of
from engine.game.play import NOBODY_LIMITED
from engine.game.steps import Step
from engine.rules.roles import roles_in, roles_of
from engine.rules.rule_sets import RuleSet
from engine.rules.vocabulary import TRIGGERS

#: How many positions are looked at before giving up: enough for every trigger of the shipped sets.
LOOKED_AT = 4000


def sample(trigger: str, formation: Formation, rules: RuleSet, role: str | None = None) -> tuple[str, ...]:
    """Return the shortest chain of text forms whose last action is an instance of ``trigger``.

    With ``role``, one in which somebody has that role, if there is any such. Empty if the rule set never
    gets there (within ``LOOKED_AT`` positions).
    """
    plain: tuple[str, ...] = ()
    for number, (done, look) in enumerate(explore(formation, rules, NOBODY_LIMITED)):
        if number > LOOKED_AT:
            break
        for step in look.steps:
            triggers, roles = _what_happens(step, formation)
            if trigger not in triggers:
                continue
            chain = done.chain(look.position, step.action.text)
            if role is None or role in roles:
                return chain
            plain = plain or chain
    return plain


def _what_happens(step: Step, formation: Formation) -> tuple[frozenset[str], frozenset[str]]:
    """Return the triggers of a step and the roles players have in it."""
    scene, triggers = scene_of(step.before, step.action, formation), step.action.about.triggers
    if not scene.trigger:
        return frozenset(triggers), frozenset(role for trigger in triggers for role in TRIGGERS[trigger])
    if step.action.about.has_screener:
        return frozenset((scene.trigger, "ball_screen")), roles_in(scene) | {"screener"}
    return frozenset((scene.trigger,)), roles_in(scene)


def spots_with(role: str, step: Step, formation: Formation) -> frozenset[str]:
    """Return the spots, before a step, of the players who have ``role`` in it; of nobody on a shot."""
    scene = scene_of(step.before, step.action, formation)
    if not scene.trigger:
        return frozenset()
    if role == "screener" and step.action.about.has_screener and step.action.spot is not None:
        return frozenset((step.action.spot,))
    return frozenset(spot for spot in scene.occupied - scene.gone if role in roles_of(scene, spot))
