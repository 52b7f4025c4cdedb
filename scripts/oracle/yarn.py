"""Yarn numbers: each system by its own definition, through grams to a metre."""

from fractions import Fraction
from run import Case
from words import near

ANSWERED = 0.95
YARD, POUND = Fraction(9144, 10000), Fraction(45359237, 100000)
# Direct systems give a mass to a length, indirect ones a length to a mass: the tex of 1.
DIRECT = {"tex": Fraction(1), "dtex": Fraction(1, 10), "den": Fraction(1, 9)}
INDIRECT = {
    "Nm": Fraction(1000),  # 1 km in a kilogram
    "Ne": POUND / (840 * YARD) * 1000,  # hanks of 840 yd in a pound
    "NeK": POUND / (560 * YARD) * 1000,  # hanks of 560 yd in a pound
    "lea": POUND / (300 * YARD) * 1000,  # leas of 300 yd in a pound
    "run": POUND / (1600 * YARD) * 1000,  # runs of 1,600 yd in a pound
    "cut": POUND / (300 * YARD) * 1000,  # cuts of 300 yd in a pound
}


def number(random):
    """A yarn as it is written, and its tex."""
    system = random.choice(["tex", "dtex", "den", "Nm", "Ne", "NeK", "m/g", "yd/g"])
    plies = random.randint(1, 4)
    if system in ("m/g", "yd/g"):
        unit, size = ("m", Fraction(1)) if system == "m/g" else ("yd", YARD)
        along, grams = random.randint(60, 900), random.choice([25, 50, 100])
        return f"{along} {unit}/{grams} g", Fraction(grams * 1000) / (along * size)
    if system in DIRECT:
        value = random.randint(5, 400)
        text = f"{value} {system}" + (f" x {plies}" if plies > 1 else "")
        return text, value * DIRECT[system] * plies
    # Above a dozen: of 3/4 either number could be the plies, and that is refused.
    value = random.randint(2 if plies == 1 else 13, 80)
    if plies == 1:
        return f"{value} {system}", INDIRECT[system] / value
    # Metric numbers have the plies first, cotton and worsted ones after.
    text = f"{plies}/{value} {system}" if system == "Nm" else f"{value}/{plies} {system}"
    return text, INDIRECT[system] / value * plies


def case(random):
    text, tex = number(random)
    arguments = ["yarn", text]
    for _ in range(random.choice([0, 0, 1, 2])):
        other, more = number(random)
        arguments += ["--with", other]
        tex += more
    to = random.choice([None, *DIRECT, *INDIRECT])
    if to:
        arguments += ["--to", to]
    return Case(arguments, (tex, to))


def judge(meaning, code, answer):
    tex, to = meaning
    if code != 0:
        # The number may be beyond what is held exactly, never one of an ordinary yarn.
        return "refused"
    if Fraction(answer["tex_exact"]) != tex or not near(answer["tex"], tex):
        return f"{tex} tex"
    if not near(answer["metres_per_100g"], 100_000 / tex):
        return f"{float(100_000 / tex)} m in 100 g"
    if not near(answer["yards_per_lb"], POUND * 1000 / tex / YARD):
        return f"{float(POUND * 1000 / tex / YARD)} yd in a pound"
    if to:
        want = tex / DIRECT[to] if to in DIRECT else INDIRECT[to] / tex
        if Fraction(answer["number_exact"]) != want or not near(answer["number"], want):
            return f"{want} {to}"
    return None
