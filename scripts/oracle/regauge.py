"""A published count at another gauge: the same length, the nearest allowed count."""

from fractions import Fraction
from count import ROUNDS, chosen
from run import Case

ANSWERED = 0.6


def case(random):
    count = random.randint(0, 400)
    rows = random.random() < 0.3
    gauges = [(random.randint(8, 60), random.randint(8, 90), random.choice([10, 7, 12])) for _ in range(2)]
    texts = [f"{stitches}x{courses}/{span}cm" for stitches, courses, span in gauges]
    per = [Fraction(courses if rows else stitches, span * 10) for stitches, courses, span in gauges]
    meaning = {"count": count, "per": per, "multiple": 1, "rest": 0, "fewest": 0, "kept": 0}
    arguments = ["regauge", count, "--from", texts[0], "--to", texts[1]]
    if rows:
        arguments.append("--rows")
    if random.random() < 0.5:
        multiple, extra, edge = random.randint(1, 12), random.randint(0, 5), random.randint(0, 2)
        arguments += ["--multiple", multiple, "--extra", extra, "--edge", edge]
        any_count = (multiple, extra, edge) == (1, 0, 0)
        meaning |= {"multiple": multiple, "rest": extra + 2 * edge, "fewest": 0 if any_count else 1}
        # Seam stitches stay as many as they are: only those between them keep their width.
        if random.random() < 0.4:
            arguments += ["--edge-stitches", "kept"]
            meaning["kept"] = 2 * edge
    meaning["round"] = random.choice(ROUNDS)
    return Case([*arguments, "--round", meaning["round"]], meaning)


def judge(meaning, code, answer):
    before, after = meaning["per"]
    kept = meaning["kept"]
    if meaning["count"] < kept:
        return None if code == 2 else f"{kept} edge stitches were kept of fewer"
    asked = (meaning["count"] - kept) / before + kept / after
    ideal = asked * after
    want = chosen(ideal, meaning)
    if want is None and meaning["round"] == "exact":
        return None if code == 1 else f"{ideal} is no allowed count"
    if want is None:
        return None if code == 1 else "rounding down gave more than was asked for"
    if code != 0:
        return f"refused, but {want} would do"
    if answer["count"] != want or answer["published"] != meaning["count"]:
        return f"{want}, of an ideal of {ideal}"
    for key, wanted in {"ideal": ideal, "length": want / after, "residual": want / after - asked}.items():
        told = answer[key]
        if Fraction(told["exact_mm"] if isinstance(told, dict) else told) != wanted:
            return f"{key}: {wanted}"
    parity = [warning for warning in answer["warnings"] if warning["kind"] == "parity"]
    if bool(parity) != ((want - meaning["count"]) % 2 == 1):
        return "a parity that changes is warned of, and no other"
    return None
