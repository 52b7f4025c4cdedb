"""Two edges and their join: verdict by definition, mends by trying every count outwards."""

from fractions import Fraction
from math import isqrt
from run import Case

ANSWERED = 0.7

JOINS = {
    "graft": ("stitches", "stitches"),
    "bind-off-together": ("stitches", "stitches"),
    "stitch-seam": ("stitches", "stitches"),
    "row-seam": ("rows", "rows"),
    "stitch-to-row": ("stitches", "rows"),
    "pick-up": ("any", "stitches"),
    "hang-back": ("any", "stitches"),
    "eased": ("any", "any"),
}
PAIRED = {"graft": 0, "bind-off-together": 0, "stitch-seam": 1, "row-seam": 1}
FAR = 1200
GRID = 10**15  # of a millimetre, for square roots
DOUBT = Fraction(1, 10**4)  # a tenth of a micrometre


def root(square):
    return Fraction(isqrt(square.numerator * GRID**2 // square.denominator), GRID)


class Edge:
    """Steps of (rows, stitches) at a gauge of stitches and rows to the decimetre."""

    def __init__(self, steps, gauge):
        self.steps, self.across, self.up = steps, Fraction(100, gauge[0]), Fraction(100, gauge[1])
        self.rows = sum(rows for rows, _ in steps)
        self.stitches = sum(stitches for _, stitches in steps)
        self.counted = "rows" if self.rows else "stitches"
        self.unit = self.up if self.rows else self.across

    def length(self):
        total = Fraction(0)
        for rows, stitches in self.steps:
            up, across = rows * self.up, stitches * self.across
            total += up + across if 0 in (rows, stitches) else root(up**2 + across**2)
        return total

    def count(self):
        return self.rows or self.stitches

    def most_fewer(self):
        """What can be left out: rows without shaping, and never all of the edge."""
        if not self.rows or all(stitches == 0 for _, stitches in self.steps):
            return self.count() - 1
        return sum(rows for rows, stitches in self.steps if stitches == 0)


def edge(random, kind, gauge):
    if kind == "any":
        kind = random.choice(["stitches", "rows", "slant"])
    elif kind == "rows":
        kind = random.choice(["rows", "rows", "slant"])
    if kind == "stitches":
        steps = [(0, random.randint(1, 150)) for _ in range(random.choice([1, 1, 2]))]
    elif kind == "rows":
        steps = [(random.randint(1, 200), 0) for _ in range(random.choice([1, 1, 2]))]
    else:
        step = (random.randint(1, 12), random.randint(1, 4))
        steps = [step] * random.randint(1, 15)
        steps += [(random.randint(1, 60), 0)] * random.choice([0, 1])
        steps = [(0, random.randint(1, 9))] * random.choice([0, 1]) + steps
    told = ", ".join(
        " ".join(f"{n} {unit}" for n, unit in zip(step, ("rows", "st")) if n) for step in steps
    )
    return Edge(steps, gauge), told


def case(random):
    join = random.choice(list(JOINS))
    gauge, other = [(random.randint(10, 40), random.randint(12, 60)) for _ in range(2)]
    first, told = edge(random, JOINS[join][0], gauge)
    second, told_second = edge(random, JOINS[join][1], other)
    arguments = ["seam", told, told_second, "--join", join]
    arguments += ["--gauge", f"{gauge[0]}x{gauge[1]}/10cm"]
    arguments += ["--second-gauge", f"{other[0]}x{other[1]}/10cm"]
    overlap = random.randint(0, 9) if join == "hang-back" else 0
    arguments += ["--overlap", overlap] if overlap else []
    tolerance = ("usual",)
    which = random.randint(0, 3)
    if which == 1:
        tolerance = ("within", random.randint(0, 12))
        arguments += ["--within", tolerance[1]]
    if which == 2 and join not in PAIRED:
        least, more = random.randint(-30, 30), random.randint(0, 40)
        tolerance = ("ease", Fraction(least), Fraction(least + more))
        arguments += ["--least-ease", f"{least} mm", "--most-ease", f"{least + more} mm"]
    if which == 3 and join not in PAIRED:
        least, more = random.randint(6, 20), random.randint(0, 8)
        tolerance = ("times", Fraction(least, 10), Fraction(least + more, 10))
        arguments += ["--least-times", f"{least}/10", "--most-times", f"{least + more}/10"]
    return Case(arguments, (join, first, second, overlap, tolerance))


def by_count(join, first):
    return join in PAIRED or (join == "hang-back" and not first.rows)


def distance(difference, least, most):
    """Below the range, in it, above it; and how far from its nearest end."""
    side = -1 if difference < least else 1 if difference > most else 0
    return side, min(abs(difference - least), abs(difference - most))


def stand(meaning, first_more=0, second_more=0):
    join, first, second, overlap, tolerance = meaning
    if by_count(join, first):
        usual = PAIRED.get(join, 0)
        most = {"usual": usual, "within": tolerance[-1]}[tolerance[0]] if len(tolerance) < 3 else 0
        rows = join == "row-seam"
        a, b = (first.rows, second.rows) if rows else (first.stitches, second.stitches)
        return distance(a + first_more - b - second_more - overlap, -most, most)[0], Fraction(1)
    b = second.length() + second_more * second.unit
    a = first.length() + first_more * first.unit - overlap * second.across
    match tolerance:
        case ("usual",) if join == "eased":
            least, most = Fraction(0), Fraction("25.4")
        case ("usual",):
            most = max(second.unit, b / 50)
            least = -most
        case ("within", counts):
            most = counts * second.unit
            least = -most
        case ("ease", least, most):
            pass
        case ("times", low, high):
            least, most = (low - 1) * b, (high - 1) * b
    return distance(a - b, least, most)


def mended(meaning, which):
    """The nearest count at which the join holds; False where the nearest is in doubt."""
    edge = meaning[1 + which]
    for by in range(1, FAR):
        for change in (-by, by):
            if change < 0 and by > edge.most_fewer():
                continue
            side, doubt = stand(meaning, *((change, 0) if which == 0 else (0, change)))
            if doubt < DOUBT:
                return False
            if side == 0:
                return edge.count() + change
    return None


def judge(meaning, code, answer):
    join, first, second, _, _ = meaning
    if code != 0:
        live = [edge.rows == 0 for edge in (first, second)]
        if join in ("pick-up", "hang-back") or all(live) or join in ("row-seam", "eased"):
            return "refused, but these edges can be joined so"
        return None
    side, doubt = stand(meaning)
    if doubt < DOUBT:
        return None
    if answer["matches"] != (side == 0):
        return f"matches is {answer['matches']}"
    if side == 0:
        return None if answer["mend"] is None else "a mend for what holds"
    for which, key in enumerate(("first", "second")):
        told, wanted = answer["mend"][key], mended(meaning, which)
        if wanted is False:
            continue
        to = told["to"] if told else None
        if told and to is not None and wanted is None:
            if abs(to - meaning[1 + which].count()) >= FAR:
                continue
        if to != wanted:
            return f"the mend of the {key} edge is to {to}, but {wanted} is the nearest that holds"
    return None
