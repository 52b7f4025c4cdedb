"""Events across a row: the words are knitted, and half gaps are compared with every
placement there could be."""

import re
from fractions import Fraction
from math import ceil, floor
from run import Case
from words import atoms

ANSWERED = 0.6
ENDS = ["half", "half", "half", "round", "full", "both", "blocks", "leftover", "half-numbers"]


def case(random):
    stitches = random.randint(1, 40) if random.random() < 0.5 else random.randint(1, 400)
    events = random.randint(1, max(1, stitches // random.choice([1, 2, 3, 6])))
    fewer = random.random() < 0.5
    ends = random.choice(ENDS)
    border = random.choice([0, 0, 0, 1, 2])
    change = -events if fewer else events
    arguments = ["space", stitches, f"--change={change:+d}", "--ends", ends, "--border", border]
    return Case(arguments, (stitches, change, ends, border))


def knitted(words):
    """The positions the words give, the stitches they use, and the stitches they make."""
    used, made, positions = 0, 0, []
    for word in atoms(words):
        if plain := re.fullmatch(r"k(\d+)", word):
            used, made = used + int(plain[1]), made + int(plain[1])
            continue
        uses, makes = {"M1": (0, 1), "k2tog": (2, 1), "ssk": (2, 1)}[word]
        used, made = used + uses, made + makes
        positions.append(used)
    return positions, used, made


def deviation(positions, stitches, events):
    """The farthest the count of events is from the straight line at any prefix."""
    worst, done = Fraction(0), 0
    for prefix in range(stitches + 1):
        done += positions.count(prefix)
        worst = max(worst, abs(done - Fraction(events * prefix, stitches)))
    return worst


def possible(limit, stitches, events, each):
    """Whether any placement stays within a limit at every prefix."""
    before = 0
    for event in range(1, events + 1):
        earliest = max(ceil((event - limit) * stitches / events), before + each, 1 if each == 0 else 0)
        latest = floor((event - 1 + limit) * stitches / events) + 1
        if earliest > min(latest, stitches):
            return False
        before = earliest
    return True


def judge(meaning, code, answer):
    stitches, change, ends, border = meaning
    events, within = abs(change), stitches - 2 * border
    each = 2 if change < 0 else 1
    if code != 0:
        if ends == "half" and within > 0 and events * each <= within:
            return "refused, but there is room"
        wanted = 2 if within < 0 else 1
        return None if code == wanted else f"{wanted} is the code of such a refusal"
    positions = answer["positions"]
    if answer["result"] != stitches + change or len(positions) != events:
        return f"{events} events make {stitches + change}"
    try:
        told, used, made = knitted(answer["words"])
    except KeyError as word:
        return f"{word} in the words"
    if (told, used, made) != (positions, stitches, stitches + change):
        return f"the words give {told}, use {used} and make {made}"
    groups = [group["size"] for group in answer["groups"] for _ in range(group["times"])]
    ends_at, at = [], border + answer["lead"]
    for size in groups:
        at += size
        ends_at.append(at)
    if ends_at != positions or at + answer["tail"] + border != stitches:
        return f"the groups end at {ends_at}"
    if positions and (positions[0] < border or positions[-1] > stitches - border):
        return "an event in the border"
    if ends == "half" and within <= 60:
        inner = [position - border for position in positions]
        worst = deviation(inner, within, events)
        if worst > Fraction(1, 2) and possible(worst - Fraction(1, 2 * within), within, events, each):
            return f"{float(worst)} from the line, and less is possible"
    return None
