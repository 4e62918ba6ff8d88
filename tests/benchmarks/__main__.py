"""``python3 -m tests.benchmarks``: all of them, one after the other; a few minutes."""

from __future__ import annotations

from webapp.bootstrap import ensure

if __name__ == "__main__":
    ensure("tests.benchmarks", ["test"])
    from tests.benchmarks import checker, engine_rate, fan_out, first_load, ink, pocket, start, tap_to_frame

    for benchmark in (start, engine_rate, checker, fan_out, first_load, tap_to_frame, pocket, ink):
        print(f"\n## {benchmark.__name__.rsplit('.', 1)[1].replace('_', ' ')}", flush=True)
        benchmark.main()
