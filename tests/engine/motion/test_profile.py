"""The speed profile: speed up, hold, slow down."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.motion.profile import PEAK, RAMP, elapsed, travelled

SHARES = st.floats(0.0, 1.0)


def test_peak_speed_is_as_measured() -> None:
    # Off-ball moves of 3 m or more: median mean 2.8, median peak 3.6 m/s; professional tracking data 2015-16.
    assert pytest.approx(3.6 / 2.8, abs=0.01) == PEAK
    assert RAMP == 0.22
    steps = [travelled((i + 1) / 1000) - travelled(i / 1000) for i in range(1000)]
    assert max(steps) * 1000 == pytest.approx(PEAK)


@given(SHARES, SHARES)
def test_nobody_runs_backwards(a: float, b: float) -> None:
    low, high = sorted((a, b))
    assert travelled(low) <= travelled(high)


@given(SHARES)
def test_symmetry(u: float) -> None:
    assert travelled(1.0 - u) == pytest.approx(1.0 - travelled(u), abs=1e-9)


@given(SHARES)
def test_inverse(s: float) -> None:
    assert travelled(elapsed(s)) == pytest.approx(s, abs=1e-9)


def test_ends_are_held() -> None:
    assert [travelled(u) for u in (-1.0, 0.0, 1.0, 2.0)] == [0.0, 0.0, 1.0, 1.0]
    assert [elapsed(s) for s in (-1.0, 0.0, 1.0, 2.0)] == [0.0, 0.0, 1.0, 1.0]
    assert travelled(0.5) == pytest.approx(0.5)
