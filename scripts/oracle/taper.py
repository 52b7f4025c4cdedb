"""An edge over rows: the words are knitted row by row and held against the line."""

import re
from fractions import Fraction
from run import Case

ANSWERED = 0.4
ORDERS = ["spread", "spread", "slow-first", "quick-first", "alternating"]


def case(random):
    start = random.randint(1, 200)
    edges = random.choice([1, 2])
    events = random.randint(0, 40)
    change = events * edges * random.choice([-1, 1])
    end = max(0, start + change)
    rows = random.randint(1, 200)
    every = random.choice([1, 1, 2, 2, 4])
    order = random.choice(ORDERS)
    arguments = ["taper", start, end, "--rows", rows, "--edges", edges, "--every", every, "--order", order]
    return Case(arguments, (start, end, rows, edges, every, order))


def knitted(words):
    """The rows on which the words shape."""
    row, events = 0, []
    for part in words.split(", then "):
        if plain := re.fullmatch(r"(?:work|knit) (\d+) rows? plain", part.strip()):
            row += int(plain[1])
            continue
        found = re.search(r"(?:every (\d+)(?:st|nd|rd|th)|(every)|in the (?:first|next)|on row (\d+)) ?(?:row)?(.*)", part)
        if found is None:
            raise ValueError(part)
        gap = int(found[1] or 1)
        rest = found[4] or ""
        times = int(re.search(r"(\d+) times", rest)[1]) if "times" in rest else 2 if "twice" in rest else 1
        for _ in range(times):
            row += gap
            events.append(row)
    return events


def judge(meaning, code, answer):
    start, end, rows, edges, every, order = meaning
    change = abs(end - start)
    if change % edges:
        return None if code == 2 else "an odd change at two edges was not refused"
    needed, legal = change // edges, rows // every
    if needed > legal:
        return None if code == 1 else f"{needed} shapings in {legal} rows"
    if end == 0 or start == 0:
        return None
    if code != 0:
        return "refused, but there are rows enough"
    events, each = answer["events"], answer["event_stitches"]
    if len(events) != needed or each != [1] * needed or sorted(set(events)) != events:
        return f"{needed} shapings of one stitch"
    if any(row % every or not 0 < row <= rows for row in events):
        return f"a shaping outside every {every}th row"
    row, told = answer["plain_before"], []
    for segment in answer["segments"]:
        for _ in range(segment["times"]):
            row += segment["every"]
            told.append(row)
    if told != events or row + answer["plain_after"] != rows:
        return f"the segments shape on {told}"
    gaps = [after - before for before, after in zip(events, events[1:])]
    if order == "slow-first" and gaps != sorted(gaps, reverse=True):
        return "a wide gap after a narrow one"
    if order == "quick-first" and gaps != sorted(gaps):
        return "a narrow gap after a wide one"
    if gaps and max(gaps) - min(gaps) > every and order != "spread":
        return "gaps differ by more than the rows that may shape"
    if order == "spread" and needed:
        for place in range(legal + 1):
            done = sum(row <= place * every for row in events)
            if abs(done - Fraction(needed * place, legal)) > Fraction(1, 2):
                return f"more than half a shaping from the line after row {place * every}"
    return None
