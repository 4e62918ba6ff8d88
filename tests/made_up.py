"""A made-up language out of English: accents, brackets, and texts that are 35 % longer.

Whatever stands on a screen without brackets did not come from the tables; where brackets stand beside each
other or beside other signs, code has put together what another language would put in another order; whatever
is cut off or lies on something else would be in a language that is not as short as English. ``en-XA`` is the
tag such languages commonly have (common practice, no source).
"""

from __future__ import annotations

import json
import math
import re
import sys
from pathlib import Path
from typing import Any, Final

from engine.words.language import english

TAG: Final = "en-XA"
OPENS, SHUTS = "⟦", "⟧"
_LONGER: Final = 1.35
_ACCENTS: Final = str.maketrans("aceinouyACEINOUYSs", "áçéíñóúýÁÇÉÍÑÓÚÝŠš")
#: What is to be kept letter by letter: slots, and the marks of strong text.
_KEPT: Final = re.compile(r"(\{\w+\}|\*\*)")


def text(english_text: str) -> str:
    """Return a text in the made-up language."""
    if not any(c.isalpha() for c in _KEPT.sub("", english_text)):
        # What only joins others stands in brackets of its own: so whatever joins them elsewhere stands out.
        return f"{OPENS}{english_text}{SHUTS}" if _KEPT.search(english_text) else english_text
    parts = _KEPT.split(english_text)
    length = sum(len(part) for part in parts[::2])
    wanted = math.ceil(length * _LONGER) - length
    for at in range(0, len(parts), 2):
        grown = ""
        for c in parts[at]:
            grown += c
            if wanted > 0 and c in "aeiou":
                grown, wanted = grown + c, wanted - 1
        parts[at] = grown.translate(_ACCENTS)
    # What has too few vowels is made longer at its end.
    last = max(at for at in range(0, len(parts), 2) if parts[at].strip() or at == 0)
    parts[last] = parts[last].rstrip() + "é" * wanted + parts[last][len(parts[last].rstrip()) :]
    lead = english_text[: len(english_text) - len(english_text.lstrip())]
    trail = english_text[len(english_text.rstrip()) :] if english_text.strip() else ""
    return f"{lead}{OPENS}{''.join(parts).strip()}{SHUTS}{trail}"


def bare(said: str) -> str:
    """Return what stands outside the brackets."""
    innermost = re.compile(f"{OPENS}[^{OPENS}{SHUTS}]*{SHUTS}")
    while innermost.search(said):
        said = innermost.sub(" ", said)
    return said


def write(folder: Path) -> Path:
    """Write the language into ``folder``, and return it: a folder of languages as a server reads it."""
    (folder / TAG).mkdir(parents=True)
    for name, table in english().tables.items():
        made = _made(table)
        if name == "language":
            made |= {"direction": table["direction"], "numbers": table["numbers"]}
        content = json.dumps(made, ensure_ascii=False)
        (folder / TAG / f"{name}.json").write_text(content, "utf-8")
    return folder


def _made(texts: Any) -> Any:
    return text(texts) if isinstance(texts, str) else {key: _made(each) for key, each in texts.items()}


if __name__ == "__main__":
    print(write(Path(sys.argv[1])) / TAG)
