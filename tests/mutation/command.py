"""Breaks the code in two hundred places, one after the other, and says where no test noticed.

Which tests reach what is measured first, once; ``--measure`` does it again, after tests were added. Results
are kept in .artifacts/mutation, and what has one is not tried again: it can be stopped at any time. A fault
that makes no difference anybody could see is listed, with the reason, in equivalent.json.
"""

from __future__ import annotations

import argparse
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from queue import SimpleQueue

from tests.mutation import coverage_told, reach
from tests.mutation.copies import Copy
from tests.mutation.faults import Fault
from tests.mutation.sample import AREAS, ROOT, sampled
from tests.mutation.trial import Limits, Result, keep, kept_results, name_of, reasons, tried


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        prog="python3 -m tests.mutation", description=(__doc__ or "").split("\n")[0]
    )
    parser.add_argument("--seed", type=int, default=1, help="another seed tries other places")
    parser.add_argument("--share", type=float, default=1.0, help="of the two hundred, so many")
    parser.add_argument("--only", nargs="*", default=[""], metavar="PATH", help="only files that begin so")
    parser.add_argument("--jobs", type=int, default=1, help="trials at the same time")
    parser.add_argument("--limit", type=float, default=60.0, metavar="S", help="seconds a trial may last")
    parser.add_argument(
        "--tests-s", type=float, default=30.0, metavar="S", help="processor time of the tests chosen for one"
    )
    parser.add_argument(
        "--measure", nargs="*", metavar="TESTS", help="measure what tests reach, and coverage"
    )
    parser.add_argument(
        "--again", nargs="*", default=[], metavar="OUTCOME", help="try those that came to this again"
    )
    parser.add_argument("--tests", nargs="*", default=[], metavar="FILE", help="run these test files instead")
    parser.add_argument("--list", action="store_true", help="try nothing, print what is known")
    return parser.parse_args()


def main() -> None:
    """Try what has no result yet; print what survived."""
    options = _options()
    if options.measure is not None or not (options.tests or options.list or reach.is_measured()):
        reach.measure(options.jobs, options.measure or ["tests"])
        coverage_told.tell()
    if options.measure is not None:
        return
    faults = [
        fault
        for _, fault in sampled(options.seed, options.share)
        if fault.path.startswith(tuple(options.only))
    ]
    known = kept_results()
    waiting = [
        fault
        for fault in faults
        if (result := known.get(name_of(fault))) is None or result.outcome in options.again
    ]
    if not options.list and waiting:
        _try(waiting, options)
    _tell(options)


def _try(waiting: list[Fault], options: argparse.Namespace) -> None:
    reached = reach.nothing() if options.tests else reach.load()
    copies: SimpleQueue[Copy] = SimpleQueue()
    limits = Limits(options.limit, options.tests_s)
    made = [Copy(str(number)) for number in range(options.jobs)]
    for copy in made:
        copies.put(copy)

    def one(fault: Fault) -> Result:
        copy = copies.get()
        try:
            return tried(fault, copy, reached, limits, options.tests)
        finally:
            copies.put(copy)

    try:
        with ThreadPoolExecutor(options.jobs) as pool:
            for done, result in enumerate(pool.map(one, waiting), 1):
                keep(result)
                print(
                    f"{done}/{len(waiting)} {result.outcome} {result.s} s  {result.key}  {result.by}",
                    flush=True,
                )
    finally:
        for copy in made:
            copy.remove()


def _tell(options: argparse.Namespace) -> None:
    known, explained = kept_results(), reasons()
    counted: dict[str, Counter[str]] = {area.name: Counter() for area in AREAS}
    for area, fault in sampled(options.seed, options.share):
        if not fault.path.startswith(tuple(options.only)):
            continue
        result, source = known.get(name_of(fault)), (ROOT / fault.path).read_bytes()
        outcome = "not tried" if result is None else result.outcome
        why = explained.get(fault.key(source))
        if why is not None and outcome != "caught":
            outcome = "equivalent"
        counted[area.name][outcome] += 1
        if result is not None and outcome not in ("caught", "equivalent"):
            old, new = fault.shown(source)
            ran = f"{result.ran} of {result.reaching} tests, {result.s} s"
            print(f"\n{outcome} {fault.path}:{fault.line}  ({ran})")
            print("\n".join(f"- {line}" for line in old.splitlines()))
            print("\n".join(f"+ {line}" for line in new.splitlines()))
    print()
    for name, counts in counted.items():
        print(f"{name}: " + ", ".join(f"{count} {outcome}" for outcome, count in sorted(counts.items())))
