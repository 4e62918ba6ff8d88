"""Rule sets and formations, what ships and the team's own: found by the refs that boards and pages keep.

A ref is the name of what ships, ``r_<id>`` or ``f_<id>`` for the newest version of the team's own, or the
same with ``@<n>`` for one version, which never changes.
"""

from __future__ import annotations

import json
import time
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any, Final, Literal

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from engine.floor import shapes
from engine.floor.formations import FORMATIONS
from engine.floor.spot_names import formation_title
from engine.rules import rule_sets as rules
from engine.words.spoken import say
from webapp.base.tokens import new_id
from webapp.store.tables import Design, DesignVersion
from webapp.wire.refusals import Refused

Kind = Literal["rules", "formation"]
Form = dict[str, Any]

#: A team's own of each kind that are not deleted; those and the deleted ones; versions of one.
OWN_MAX: Final = 50
KEPT_MAX: Final = 500
VERSIONS_MAX: Final = 500

_PREFIX: Final[Mapping[Kind, str]] = {"rules": "r_", "formation": "f_"}
_SHIPPED: Final[Mapping[Kind, tuple[str, ...]]] = {"rules": rules.SHIPPED, "formation": tuple(FORMATIONS)}
#: What a design is called in its own JSON form.
_CALLED: Final[Mapping[Kind, str]] = {"rules": "title", "formation": "name"}


@dataclass(frozen=True, slots=True)
class DesignForm:
    """A rule set or formation in its JSON form. ``ref`` is that of this very version; what ships has one."""

    kind: Kind
    ref: str
    version: int
    form: Form

    @property
    def shipped(self) -> bool:
        """Whether it came with Quintet."""
        return self.ref in _SHIPPED[self.kind]

    @property
    def newest_ref(self) -> str:
        """The ref that goes along with new versions."""
        return self.ref.partition("@")[0]

    @property
    def title(self) -> str:
        """What people call it."""
        if self.shipped and self.kind == "formation":
            return formation_title(self.ref)
        return say(f"rule_sets.{self.ref}.title") if self.shipped else str(self.form[_CALLED[self.kind]])

    @property
    def shown(self) -> Form:
        """Return the form as people are shown it: what ships speaks their language."""
        if not self.shipped:
            return self.form
        if self.kind == "formation":
            return {**self.form, "name": self.title}
        stages = [
            {**stage, "title": say(f"rule_sets.{self.ref}.stages.{number}")}
            for number, stage in enumerate(self.form.get("stages", ()), start=1)
        ]
        told = {"title": self.title, "about": say(f"rule_sets.{self.ref}.about")}
        return {**self.form, **told, **({"stages": stages} if stages else {})}


@cache
def shipped(kind: Kind, name: str) -> DesignForm:
    """Return what ships under ``name``; raise ``KeyError`` for another name."""
    if kind == "formation":
        form = shapes.write(FORMATIONS[name])
        return DesignForm(kind, name, 1, {**form, "name": name.replace("_", " ").capitalize()})
    if name not in rules.SHIPPED:
        raise KeyError(name)
    text = files("engine.rules").joinpath("rulesets", f"{name}.json").read_text("utf-8")
    return DesignForm(kind, name, 1, json.loads(text))


def all_shipped(kind: Kind) -> list[DesignForm]:
    """Return what ships, in the order it is shown."""
    return [shipped(kind, name) for name in _SHIPPED[kind]]


def find(session: Session, team_id: str, kind: Kind, ref: str, *, deleted: bool = False) -> DesignForm:
    """Return what ``ref`` means for a team. Raises ``Refused`` (``no_rules``, ``no_formation``).

    ``deleted``: find deleted ones as well, as boards do that were begun with them.
    """
    if ref in _SHIPPED[kind]:
        return shipped(kind, ref)
    name, _, number = ref.partition("@")
    design = _own(session, team_id, kind, name, deleted=deleted)
    version = int(number) if number else _newest(session, design.id)
    row = session.get(DesignVersion, (design.id, version))
    if row is None:
        raise Refused(f"no_{kind}")
    return _found(kind, row)


def ref_of(kind: Kind, design_id: str, version: int) -> str:
    """Return the ref of one version of a team's own."""
    return f"{_PREFIX[kind]}{design_id}@{version}"


def _found(kind: Kind, row: DesignVersion) -> DesignForm:
    return DesignForm(kind, ref_of(kind, row.design_id, row.version), row.version, json.loads(row.data))


def _own(session: Session, team_id: str, kind: Kind, ref: str, *, deleted: bool) -> Design:
    design = session.get(Design, ref[2:]) if ref.startswith(_PREFIX[kind]) else None
    if design is None or (design.team_id, design.kind) != (team_id, kind):
        raise Refused(f"no_{kind}")
    if design.deleted is not None and not deleted:
        raise Refused(f"no_{kind}")
    return design


def _newest(session: Session, design_id: str) -> int:
    found = select(func.max(DesignVersion.version)).where(DesignVersion.design_id == design_id)
    return session.scalars(found).one()


def own(session: Session, team_id: str, kind: Kind) -> list[DesignForm]:
    """Return the newest versions of a team's own, the oldest first."""
    newest = (
        select(DesignVersion.design_id, func.max(DesignVersion.version).label("version"))
        .group_by(DesignVersion.design_id)
        .subquery()
    )
    rows = (
        select(DesignVersion)
        .join(Design, Design.id == DesignVersion.design_id)
        .join(
            newest,
            (newest.c.design_id == DesignVersion.design_id) & (newest.c.version == DesignVersion.version),
        )
        .where(Design.team_id == team_id, Design.kind == kind, Design.deleted.is_(None))
        .order_by(Design.made, Design.id)
    )
    return [_found(kind, row) for row in session.scalars(rows)]


def add(session: Session, team_id: str, kind: Kind, form: Form, title: str) -> DesignForm:
    """Store a new one that begins as ``form`` under ``title``. Raises ``Refused`` if there are too many."""
    mine = select(func.count()).where(Design.team_id == team_id, Design.kind == kind)
    live, kept = session.scalar(mine.where(Design.deleted.is_(None))), session.scalar(mine)
    if (live or 0) >= OWN_MAX or (kept or 0) >= KEPT_MAX:
        raise Refused(f"full_{'rules' if kind == 'rules' else 'formations'}", most=OWN_MAX)
    design = Design(id=new_id(), team_id=team_id, kind=kind, made=int(time.time()), deleted=None)
    session.add(design)
    session.flush()
    return _store(session, design, 1, {**form, _CALLED[kind]: title})


def save(session: Session, team_id: str, kind: Kind, ref: str, based_on: int, form: Form) -> DesignForm:
    """Store ``form`` as the next version. Raises ``Refused``, ``newer`` if it is not based on the newest."""
    if ref in _SHIPPED[kind]:
        raise Refused("shipped")
    design = _own(session, team_id, kind, ref.partition("@")[0], deleted=False)
    newest = session.get_one(DesignVersion, (design.id, _newest(session, design.id)))
    if newest.version != based_on:
        raise Refused("newer")
    if json.loads(newest.data) == form:
        return _found(kind, newest)
    if newest.version >= VERSIONS_MAX:
        raise Refused("full_versions", most=VERSIONS_MAX)
    return _store(session, design, newest.version + 1, form)


def _store(session: Session, design: Design, version: int, form: Form) -> DesignForm:
    kind: Kind = "rules" if design.kind == "rules" else "formation"
    text = json.dumps(form, ensure_ascii=False)
    row = DesignVersion(design_id=design.id, version=version, data=text, made=int(time.time()))
    session.add(row)
    session.flush()
    return _found(kind, row)


def delete(session: Session, team_id: str, kind: Kind, ref: str) -> str:
    """Take one out of the team's list, and return its ref; boards begun with it go on. Raises ``Refused``."""
    if ref in _SHIPPED[kind]:
        raise Refused("shipped")
    design = _own(session, team_id, kind, ref.partition("@")[0], deleted=False)
    design.deleted = int(time.time())
    return _PREFIX[kind] + design.id


def restore(session: Session, team_id: str, kind: Kind, ref: str) -> DesignForm:
    """Bring a deleted one back. Raises ``Refused``."""
    design = _own(session, team_id, kind, ref.partition("@")[0], deleted=True)
    if design.deleted is None:
        raise Refused("not_deleted")
    if len(own(session, team_id, kind)) >= OWN_MAX:
        raise Refused(f"full_{'rules' if kind == 'rules' else 'formations'}", most=OWN_MAX)
    design.deleted = None
    return find(session, team_id, kind, ref.partition("@")[0])
