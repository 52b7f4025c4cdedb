"""A swatch's gauge: all counts over all lengths, and how far misreading can move it."""

from fractions import Fraction
from run import Case
from words import MILLIMETRES, decimal, length, near

ANSWERED = 0.9


def reading(random, word):
    text, mm = length(random, 30, 400)
    # Between 5 and 100 to 10 cm, so that the gauge is one that can be knitted.
    count_text, count = decimal(random, max(1, int(mm / 20)), max(2, int(mm)), 1)
    return f"{count_text} {word} = {text}", (max(count, Fraction(1, 10)), mm)


def swatch(random):
    """Readings in both directions and how finely they were read."""
    arguments, meaning = [], {}
    for word, name in (("st", "stitches"), ("rows", "rows")):
        readings = [reading(random, word) for _ in range(random.randint(1, 4))]
        for text, _ in readings:
            arguments += ["--reading", text]
        meaning[name] = [value for _, value in readings]
    step_text, step = random.choice([("1/2", Fraction(1, 2)), ("1", Fraction(1)), ("1/4", Fraction(1, 4)), ("0", Fraction(0))])
    ruler = random.choice(["1 mm", "2 mm", "0 mm", "1/8 in"])
    arguments += ["--counted-to", step_text, "--measured-to", ruler]
    amount, unit = ruler.split()
    return arguments, meaning | {"step": step, "ruler": Fraction(amount) * MILLIMETRES[unit]}


def pooled(readings, step, ruler):
    """Value, low and high to a millimetre; None where a reading is less than its error."""
    half = step / 2
    if any(mm <= ruler for _, mm in readings):
        return None
    counts = sum(count for count, _ in readings)
    lengths = sum(mm for _, mm in readings)
    each = [count / mm for count, mm in readings]
    number = len(readings)
    low = min([(counts - number * half) / (lengths + number * ruler), *each])
    high = max([(counts + number * half) / (lengths - number * ruler), *each])
    return counts / lengths, low, high


def case(random):
    arguments, meaning = swatch(random)
    return Case(["gauge", *arguments], meaning)


def judge(meaning, code, answer):
    for name in ("stitches", "rows"):
        told = pooled(meaning[name], meaning["step"], meaning["ruler"])
        if told is None or told[1] <= 0:
            return None if code == 2 else "a reading shorter than its error was taken"
        if code != 0:
            return "refused"
        value, low, high = (number * 100 for number in told)
        printed = answer[f"{name}_per_10cm"]
        if Fraction(printed["exact"]) != value or not near(printed["value"], value):
            return f"{name}: {value} to 10 cm"
        if not near(printed["low"], low) or not near(printed["high"], high):
            return f"{name}: from {float(low)} to {float(high)}"
    return None
