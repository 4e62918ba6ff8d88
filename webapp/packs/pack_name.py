"""Which pack is meant, and the name its contents give it."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from typing import Any, Final

from sqlalchemy.orm import Session

from engine.floor.alignment import start
from engine.floor.standards import STANDARDS
from engine.words.spoken import listed, say
from webapp.chains.setup import formation_in, rules_in
from webapp.packs.digest import engine_digest
from webapp.team import designs
from webapp.team.designs import DesignForm
from webapp.wire.engine_values import floor_wire, position_wire
from webapp.wire.refusals import Refused
from webapp.wire.schemas import VERSION

#: What of a rule set is there for people to read: nobody runs elsewhere for it.
_WORDS: Final = frozenset(("name", "title", "about", "known"))


@dataclass(frozen=True, slots=True)
class Wanted:
    """A pack to be made or had: rules and formation as they are kept, with their refs, and a court."""

    rules: DesignForm
    formation: DesignForm
    court: str

    @property
    def key(self) -> str:
        """The name of all that is in it, titles and refs too: with anything else it has another name."""
        return _digest(
            wire=VERSION,
            engine=engine_digest(),
            rules=[self.rules.ref, self.rules.form],
            formation=[self.formation.ref, self.formation.form],
            court=self.court,
        )

    @property
    def play(self) -> str:
        """The name of what is worked out for it, whatever the rules are called and whosever they are."""
        rules = {name: said for name, said in self.rules.form.items() if name not in _WORDS}
        rules["stages"] = [stage["adds"] for stage in self.rules.form["stages"]]
        return _digest(
            play=VERSION, engine=engine_digest(), rules=rules, formation=self.formation.form, court=self.court
        )

    def job(self) -> dict[str, Any]:
        """Return what the maker is given; what ships goes by its name."""
        return {
            "rules": self.rules.ref if self.rules.shipped else self.rules.form,
            "formation": self.formation.ref if self.formation.shipped else self.formation.form,
            "court": self.court,
        }

    def head(self) -> dict[str, Any]:
        """Return what else a board needs to be set to these: its floor, and what things are called."""
        shape, rules = formation_in(self.formation), rules_in(self.rules)
        return {
            "key": self.key,
            "rules": self.rules.ref,
            "rules_title": rules.title,
            "stages": [stage.title for stage in rules.stages],
            "formation": self.formation.ref,
            "formation_name": self.formation.title,
            "court": self.court,
            "floor": floor_wire(self.court, shape),
            "start": position_wire(start(shape)),
        }


def _digest(**what: Any) -> str:
    return hashlib.sha256(json.dumps(what, sort_keys=True).encode()).hexdigest()[:24]


def find(session: Session, team_id: str, rules: str, formation: str, court: str) -> Wanted:
    """Return the pack that refs and a court name. Raises ``Refused``."""
    if court not in STANDARDS:
        raise Refused(
            "bad_form", why=say("refusals.values.court_must_one", choices=listed(STANDARDS, "comma"))
        )
    return Wanted(
        designs.find(session, team_id, "rules", rules, deleted=True),
        designs.find(session, team_id, "formation", formation, deleted=True),
        court,
    )
