"""A stepped slope: sizes that differ by one at most, two rows to a step."""

from run import Case

ANSWERED = 0.6


def case(random):
    stitches, turns = random.randint(1, 120), random.randint(1, 40)
    larger = random.choice(["first", "last", "spread"])
    arguments = ["slope", stitches, "--larger", larger]
    free = random.random() < 0.3
    if free:
        arguments.append("--last-free")
    if random.random() < 0.5:
        arguments += ["--turns", turns]
    else:
        rows = 2 * turns - (2 if free else 0)
        arguments += ["--rows", rows]
    return Case(arguments, (stitches, turns, larger, free))


def judge(meaning, code, answer):
    stitches, turns, larger, free = meaning
    if turns > stitches:
        return None if code == 1 else f"{turns} steps of {stitches} stitches ends with 1"
    if code != 0:
        return "refused, but every step has a stitch"
    steps = answer["steps"]
    if len(steps) != turns or sum(steps) != stitches or max(steps) - min(steps) > 1:
        return f"{turns} steps of {stitches} stitches, a stitch apart at most"
    if larger == "first" and steps != sorted(steps, reverse=True):
        return "a larger step after a smaller one"
    if larger == "last" and steps != sorted(steps):
        return "a smaller step after a larger one"
    if answer["step_rows"] != [2 * step + 1 for step in range(turns)]:
        return "steps on rows 1, 3, 5, ..."
    if answer["done"] != [sum(steps[: step + 1]) for step in range(turns)]:
        return "what is done so far does not add up"
    if answer["rows"] != 2 * turns - (2 if free else 0):
        return "two rows to a step"
    return None
