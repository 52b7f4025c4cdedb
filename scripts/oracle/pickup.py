"""Stitches along an edge: groups that add up, and the simplest ratio found by search."""

import re
from fractions import Fraction
from run import Case
from words import atoms, rounded

ANSWERED = 0.5


def case(random):
    rows = random.randint(1, 200)
    arguments, ends = ["pickup", "--rows", rows], random.choice(["half", "full", "blocks"])
    if random.random() < 0.5:
        stitches = random.randint(max(1, rows // 4), 2 * rows)
        ideal = Fraction(stitches)
        arguments += ["--stitches", stitches]
    else:
        across, along = random.randint(10, 50), random.randint(10, 70)
        band = random.randint(10, 50)
        ideal = Fraction(rows * band, along)
        stitches = rounded(ideal, "nearest")
        arguments += ["--gauge", f"{across}x{along}/10cm", "--band-gauge", f"{band}x{along}/10cm"]
    most = random.randint(1, 30)
    arguments += ["--most", most, "--ends", ends]
    return Case(arguments, (rows, stitches, ideal, most))


def told(words):
    """Stitches and places that the words use."""
    picked = places = 0
    for word in atoms(words):
        count = int(re.search(r"\d+", word)[0])
        picked += count if word.startswith("pick up") else 0
        places += count
    return picked, places


def judge(meaning, code, answer):
    rows, stitches, ideal, most = meaning
    if code != 0:
        if 0 < stitches <= rows:
            return "refused, but every stitch has a place"
        return None if code in (1, 2) else "refused with another code"
    if answer["stitches"] != stitches or answer["rows"] != rows or Fraction(answer["ideal"]) != ideal:
        return f"{stitches} stitches of {ideal} along {rows} rows"
    groups = answer["groups"]
    picked = sum((group["pick"] + group.get("extra", 0)) * group["times"] for group in groups)
    along = sum((group["pick"] + group["miss"]) * group["times"] for group in groups)
    if (picked, along) != (stitches, rows):
        return f"the groups pick up {picked} along {along} rows"
    if stitches < rows and told(answer["words"]) != (stitches, rows):
        return f"the words pick up {told(answer['words'])[0]} along {told(answer['words'])[1]} rows"
    above, below = answer["ratio"]
    off = lambda above, below: abs(Fraction(rows * above, below) - ideal)
    simplest = next((q for q in range(1, most + 1) if off(rounded(ideal * q / rows, "nearest"), q) < 1), None)
    if simplest is not None and below != simplest:
        return f"{rounded(ideal * simplest / rows, 'nearest')} of every {simplest} is out by less than a stitch"
    if off(above, below) > off(max(1, rounded(ideal * below / rows, "nearest")), below):
        return f"{above} of every {below} is not the nearest"
    return None
