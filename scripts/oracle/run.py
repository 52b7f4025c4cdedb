"""Runs the program on random cases and lets an oracle judge each answer.

An oracle is a module of this folder, named after its verb, with

* `case(random)`: a `Case`, the arguments and what they mean;
* `judge(meaning, code, answer)`: a complaint, or None. `answer` is the JSON as Python
  has it, its numbers with a point as `Fraction`s of the text that was printed;
* `ANSWERED`: the least share of cases that must be answered, so that an oracle which
  meets nothing but refusals fails.

Oracles are written from the documentation (`help VERB`, README, the doc comments),
by definition and by search, never from the program's source.
"""

import argparse
import concurrent.futures
import importlib
import json
import os
import random
import subprocess
import sys
import time
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE))


@dataclass
class Case:
    """One command line: its arguments, what they mean, and standard input if it is read."""

    arguments: list
    meaning: Any
    stdin: str = ""


def run(program, case):
    """The exit code and the JSON of one case."""
    done = subprocess.run(
        [program, *map(str, case.arguments), "--json"],
        input=case.stdin,
        capture_output=True,
        text=True,
        timeout=120,
    )
    answer = json.loads(done.stdout, parse_float=Fraction) if done.stdout else None
    return done.returncode, answer, done.stderr.strip()


def judged(program, verb, oracle, seed, number):
    """Whether a case was answered, and what is wrong with the answer."""
    case = oracle.case(random.Random(f"{verb} {seed} {number}"))
    code, answer, why = run(program, case)
    if code not in (0, 1, 2):
        complaint = f"the program ended with {code}: {why}"
    else:
        complaint = oracle.judge(case.meaning, code, answer)
    if complaint:
        typed = " ".join(f"'{a}'" if " " in str(a) else str(a) for a in case.arguments)
        complaint = f"{verb} {number}: {typed}\n{case.stdin}    {complaint}\n    {why or answer}"
    return code == 0, complaint


def check(program, verb, cases, seed):
    """Runs all cases of a verb; True if the oracle agrees with every one."""
    oracle = importlib.import_module(verb)
    began = time.monotonic()
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        work = [pool.submit(judged, program, verb, oracle, seed, n) for n in range(cases)]
        results = [done.result() for done in work]
    complaints = [complaint for _, complaint in results if complaint]
    answered = sum(fine for fine, _ in results)
    took = time.monotonic() - began
    print(f"{verb}: {cases} cases, {answered} answered, {len(complaints)} wrong, {took:.0f} s")
    for complaint in complaints[:5]:
        print(f"  {complaint}")
    if answered < cases * oracle.ANSWERED:
        print(f"  fewer than {oracle.ANSWERED:.0%} were answered")
    return not complaints and answered >= cases * oracle.ANSWERED


def main():
    verbs = sorted(path.stem for path in HERE.glob("*.py") if path.stem not in ("run", "words"))
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("verbs", nargs="*", metavar="VERB", help=f"of {', '.join(verbs)}; all")
    parser.add_argument("--program", required=True)
    parser.add_argument("--cases", type=int, default=2000)
    parser.add_argument("--seed", default="1")
    given = parser.parse_args()
    for verb in set(given.verbs) - set(verbs):
        parser.error(f"there is no oracle for {verb}; there are {', '.join(verbs)}")
    agreed = [check(given.program, verb, given.cases, given.seed) for verb in given.verbs or verbs]
    print(f"{sum(agreed)} passed, {len(agreed) - sum(agreed)} failed")
    sys.exit(not all(agreed))


if __name__ == "__main__":
    sys.modules["run"] = sys.modules["__main__"]
    main()
