"""What is legal in an alignment, and what each action does: pure functions of immutable values."""

from __future__ import annotations

from functools import lru_cache

from engine.errors import AmbiguousAction, IllegalAction
from engine.floor.alignment import Alignment
from engine.floor.formations import LANE, Formation
from engine.floor.spot_names import formation_words, spot_slots
from engine.game.candidates import refusal
from engine.game.compiled import Outcomes, compiled
from engine.game.steps import Step
from engine.rules.actions import Action
from engine.rules.rule_sets import DEFAULT, RuleSet
from engine.words.spoken import listed, say


@lru_cache(maxsize=65536)
def steps(alignment: Alignment, formation: Formation, rules: RuleSet = DEFAULT) -> tuple[Step, ...]:
    """Return the step of every legal action, in a fixed order: that of the catalogue."""
    return generate(alignment, formation, rules)


def generate(alignment: Alignment, formation: Formation, rules: RuleSet = DEFAULT) -> tuple[Step, ...]:
    """Work out what :func:`steps` answers, without its cache.

    An action to which the rule set gives no clear response is not legal; the checker reports it.
    """
    return outcomes(alignment, formation, rules)[0]


def outcomes(alignment: Alignment, formation: Formation, rules: RuleSet) -> Outcomes:
    """Return the steps of the legal actions, and the faults of those that fail for want of a response."""
    return compiled(formation, rules).outcomes(alignment)


def legal(alignment: Alignment, formation: Formation, rules: RuleSet = DEFAULT) -> tuple[Action, ...]:
    """Return every legal action, in the order of :func:`steps`."""
    return tuple(step.action for step in steps(alignment, formation, rules))


def why_not(
    alignment: Alignment, action: Action, formation: Formation, rules: RuleSet = DEFAULT
) -> str | None:
    """Return ``None`` if ``action`` is legal, else one sentence that says why it is not."""
    if action in legal(alignment, formation, rules):
        return None
    return say(
        "refusals.moves.not_legal_here",
        text=repr(action.text),
        why=_why_not(alignment, action, formation, rules),
    )


def _why_not(alignment: Alignment, action: Action, formation: Formation, rules: RuleSet) -> str:
    if alignment.over:
        return say("refusals.moves.possession_ended_with_shot")
    if not rules.has(action.kind):
        return say("refusals.moves.teams_rules_do_not")
    said = refusal(alignment, action, formation, rules) or action.about.unanswered
    return said.format(
        **spot_slots("spot", action.spot or ""),
        **spot_slots("ball", alignment.ball),
        formation=formation_words(formation.name),
        posts=rules.posts_in(formation),
    )


def find(text: str, alignment: Alignment, formation: Formation, rules: RuleSet = DEFAULT) -> Action:
    """Return the one legal action that ``text``, a text form or the beginning of one, can mean.

    Raises ``AmbiguousAction`` naming the candidates, or ``IllegalAction`` when there is none.
    """
    parts = text.split(":")
    matches = [a for a in legal(alignment, formation, rules) if a.text.split(":")[: len(parts)] == parts]
    if len(matches) > 1:
        names = listed((match.text for match in matches), "or")
        raise AmbiguousAction(say("refusals.moves.could_mean_say_which", text=repr(text), names=names))
    if not matches:
        raise IllegalAction(say("refusals.moves.no_legal_action_here", text=repr(text)))
    return matches[0]


def meant(action: Action, alignment: Alignment) -> Action:
    """Return what an action says here: a lane spot means the cutter, wherever in the lane he stands.

    Chains were stored when every drive ended in the paint, with that spot in their text.
    """
    cutter = alignment.cutter
    return action if cutter is None or action.spot not in LANE else action._replace(spot=cutter)


def resolve(alignment: Alignment, action: Action, formation: Formation, rules: RuleSet = DEFAULT) -> Step:
    """Return the step that ``action`` causes; raise ``IllegalAction``, saying why, if it is not legal."""
    for step in steps(alignment, formation, rules):
        if step.action == action:
            return step
    raise IllegalAction(why_not(alignment, action, formation, rules))
