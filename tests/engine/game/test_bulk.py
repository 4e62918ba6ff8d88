"""While very many values are made nothing looks for circles among them; afterwards it is as it was."""

from __future__ import annotations

import gc

from engine.game.bulk import uncollected


def test_two_who_overlap_leave_collecting_on() -> None:
    """The second once found it off, and left it so for good."""
    assert gc.isenabled()
    first, second = uncollected(), uncollected()
    first.__enter__()
    second.__enter__()
    first.__exit__(None, None, None)
    assert not gc.isenabled()
    second.__exit__(None, None, None)
    assert gc.isenabled()


def test_where_it_was_off_before_it_stays_off() -> None:
    gc.disable()
    try:
        with uncollected():
            pass
        assert not gc.isenabled()
    finally:
        gc.enable()
