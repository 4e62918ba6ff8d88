"""How a spot and a formation are said in the engine's own sentences."""

from __future__ import annotations

from typing import Final

from engine.words.spoken import spoken, table

#: The forms that a spot's name has by its use in a sentence, as sections of engine/locales' "court". What a
#: form does not say of a spot by itself is filled in from the form's ``any_spot``.
FORMS: Final = ("at", "the", "to", "from")


def spot_words(spot: str) -> str:
    """Return a spot's name as it is said: ``left_short_corner`` is "left short corner"."""
    return table("court", "spots").get(spot, spot.replace("_", " "))


def spot_form(form: str, spot: str) -> str:
    """Return a spot's name in one of :data:`FORMS`: "to" is "to the left wing"."""
    forms = table("court", form)
    known = forms.get(spot) or forms.get("any_spot") or "{spot}"
    return spoken().fill(known, {"spot": spot_words(spot)})


def spot_forms(spot: str) -> dict[str, str]:
    """Return a spot's name in each of :data:`FORMS`."""
    return {form: spot_form(form, spot) for form in FORMS}


def spot_slots(name: str, spot: str) -> dict[str, str]:
    """Return what fills a spot's slots in a text: ``name`` its name, ``to_name`` and so on its forms."""
    return {name: spot_words(spot)} | {f"{form}_{name}": said for form, said in spot_forms(spot).items()}


def formation_words(name: str) -> str:
    """Return a formation's name as it is said; one of the team's own is what the team calls it."""
    return table("court", "formations").get(name, name.replace("_", " "))


def formation_title(name: str) -> str:
    """Return the same as a title: "Five out"."""
    return beginning(formation_words(name))


def beginning(text: str) -> str:
    """Return a text as it begins a sentence, with a capital; one that may begin with a spot's name."""
    return text[:1].upper() + text[1:]
