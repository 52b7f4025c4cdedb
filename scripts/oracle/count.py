"""A length to a count: every allowed count is looked at, and the one asked for is taken."""

from fractions import Fraction
from gauge import pooled, swatch
from run import Case
from words import length, near

ANSWERED = 0.6
ROUNDS = ["nearest", "half-down", "half-even", "down", "up", "exact"]


def case(random):
    rows = random.random() < 0.3
    name = "rows" if rows else "stitches"
    text, mm = length(random, 0, 900)
    arguments, meaning = ["count", text], {"mm": mm}
    if random.random() < 0.5:
        stitches, courses = random.randint(5, 60), random.randint(5, 90)
        span_text, span = random.choice([("10cm", Fraction(100)), ("4in", Fraction(1016, 10)), ("7cm", Fraction(70))])
        arguments += ["--gauge", f"{stitches}x{courses}/{span_text}"]
        value = Fraction(courses if rows else stitches) / span
        meaning["gauge"] = (value, value, value)
    else:
        options, swatched = swatch(random)
        arguments += options
        meaning["gauge"] = pooled(swatched[name], swatched["step"], swatched["ruler"])
    if rows:
        arguments.append("--rows")
    multiple, extra, edge = 1, 0, 0
    if random.random() < 0.6:
        multiple, extra, edge = random.randint(1, 12), random.randint(0, 5), random.randint(0, 2)
        arguments += ["--multiple", multiple, "--extra", extra, "--edge", edge]
    # Without a stitch pattern any count will do; with one, at least one repeat of it.
    any_count = (multiple, extra, edge) == (1, 0, 0)
    meaning["rest"], meaning["multiple"] = extra + 2 * edge, multiple
    meaning["fewest"] = 0 if any_count else 1
    meaning["round"] = random.choice(ROUNDS)
    arguments += ["--round", meaning["round"]]
    meaning["range"] = (0, 10**6)
    if random.random() < 0.3:
        least = random.randint(0, 300)
        meaning["range"] = (least, least + random.randint(0, 60))
        arguments += ["--least", least, "--most", meaning["range"][1]]
    return Case(arguments, meaning)


def chosen(ideal, meaning):
    """The allowed count that the rounding asks for; None where there is none."""
    multiple, rest = meaning["multiple"], meaning["rest"]
    most = int(ideal) + 2 * multiple + rest + 2
    repeats = range(meaning["fewest"], most + 2)
    counts = [(times, times * multiple + rest) for times in repeats]
    match meaning["round"]:
        case "down":
            below = [count for _, count in counts if count <= ideal]
            return below[-1] if below else None
        case "up":
            return next(count for _, count in counts if count >= ideal)
        case "exact":
            return next((count for _, count in counts if count == ideal), None)
        case how:
            least = min(abs(count - ideal) for _, count in counts)
            nearest = [(t, count) for t, count in counts if abs(count - ideal) == least]
            if how == "half-even":
                nearest.sort(key=lambda pair: pair[0] % 2)
            return nearest[-1 if how == "nearest" else 0][1]


def judge(meaning, code, answer):
    if meaning["gauge"] is None or meaning["gauge"][1] <= 0:
        return None if code == 2 else "a reading shorter than its error was taken"
    value, loose, tight = meaning["gauge"]
    ideal = meaning["mm"] * value
    low, high = meaning["range"]
    multiple, rest = meaning["multiple"], meaning["rest"]
    within = [
        count
        for count in range(low, high + 1)
        if (count - rest) % multiple == 0 and (count - rest) // multiple >= meaning["fewest"]
    ] if high < 10**6 else None
    if within == []:
        return None if code == 1 else "a range without an allowed count was not refused"
    want = chosen(ideal, meaning)
    if want is None and meaning["round"] == "exact":
        return None if code == 1 else f"{ideal} is no allowed count"
    if want is None:
        return None if code == 1 else "rounding down gave more than was asked for"
    if within and meaning["round"] == "exact" and want not in within:
        return None if code == 1 else f"{want} is outside the range, and no other count is exact"
    if within:
        want = min(max(want, within[0]), within[-1])
    if code != 0:
        return f"refused, but {want} would do"
    got = answer["count"]
    if got != want:
        return f"{want}, of an ideal of {ideal}"
    exact = {"ideal": ideal, "length": got / value, "residual": got / value - meaning["mm"],
             "low": got / tight, "high": got / loose}
    for key, wanted in exact.items():
        told = answer[key]
        told_exact = told["exact_mm"] if isinstance(told, dict) else told
        if Fraction(told_exact) != wanted:
            return f"{key}: {wanted}"
        if isinstance(told, dict) and not near(told["mm"], wanted):
            return f"{key}: {float(wanted)} mm"
    return None
