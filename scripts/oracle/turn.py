"""A wedge of short rows: knitted stitch by stitch and held against the straight slope."""

from fractions import Fraction
from run import Case

ANSWERED = 0.5


def case(random):
    width, rows = random.randint(2, 120), 2 * random.randint(1, 30) + (random.random() < 0.1)
    reach = random.choice(["growing", "shrinking"])
    side = random.choice(["left", "right"])
    arguments = ["turn", width, "--rows", rows, "--shape", "wedge", "--reach", reach, "--side", side]
    return Case(arguments, (width, rows, reach, side))


def judge(meaning, code, answer):
    width, rows, reach, side = meaning
    if rows % 2:
        return None if code == 2 else "rows that do not come back were not refused"
    if rows // 2 >= width:
        return None if code == 1 else f"{rows // 2} turns before an edge {width} stitches away"
    if code != 0:
        return "refused, but there is a stitch for every turn"
    turns = answer["turns"]
    if answer["rows"] != rows or [turn["row"] for turn in turns] != list(range(1, rows, 2)):
        return f"{rows} rows, turned on every other one"
    worked = [turn["worked"] for turn in turns]
    if any(turn["worked"] + turn["left"] != width for turn in turns):
        return "what is worked and what is left make the width"
    if worked != sorted(set(worked), reverse=reach == "shrinking"):
        return f"the rows are not {reach}"
    if any(turn["side"] == side for turn in turns):
        return "a turn at the edge the knitting starts from"
    for stitch in range(width):
        knitted = 2 * sum(stitch < reached for reached in worked)
        straight = rows * (1 - Fraction(2 * stitch + 1, 2 * width))
        if abs(knitted - straight) > 1:
            return f"stitch {stitch + 1} is knitted in {knitted} rows, {float(straight):.2f} would be straight"
    return None
