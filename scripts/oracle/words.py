"""Numbers, lengths and repeats as people write them, and the rounding verbs share."""

import re
from fractions import Fraction
from math import ceil, floor

MILLIMETRES = {"mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000), "in": Fraction(254, 10)}


def decimal(random, low, high, places):
    """A decimal of at most so many places, as text and as the number it is."""
    scale = 10 ** random.randint(0, places)
    whole = random.randint(low * scale, high * scale)
    value = Fraction(whole, scale)
    text = f"{whole // scale}" if scale == 1 else f"{whole / scale:.{len(str(scale)) - 1}f}"
    return text, value


def length(random, low_mm, high_mm):
    """A length between two bounds in one of the units, as text and in millimetres."""
    unit = random.choice(list(MILLIMETRES))
    size = MILLIMETRES[unit]
    low, high = ceil(low_mm / size), floor(high_mm / size)
    text, value = decimal(random, low, max(low, high), 2 if unit != "mm" else 0)
    return f"{text} {unit}", value * size


def rounded(value, how):
    """A number made whole; None where it must be whole already and is not."""
    below = floor(value)
    if value == below:
        return below
    match how:
        case "exact":
            return None
        case "down":
            return below
        case "up":
            return below + 1
    rest = value - below
    if rest != Fraction(1, 2):
        return below + (rest > Fraction(1, 2))
    match how:
        case "nearest":
            return below + 1
        case "half-down":
            return below
        case "half-even":
            return below + below % 2
    raise ValueError(how)


def near(printed, exact):
    """Whether a printed decimal is an exact number, as finely as a double holds one."""
    return abs(Fraction(printed) - exact) <= abs(exact) * Fraction(1, 10**14)


def atoms(text):
    """A phrase with its repeats written out: the words between commas, in order.

    A repeat is `(...) x 3`, `(...) 3 times` or the same in square brackets, and may stand
    in another.
    """
    tokens = re.findall(r"[\[(]|[\])](?: x \d+| \d+ times| twice)?|[^\[\](),]+", text)
    stack = [[]]
    for token in tokens:
        if token in "[(":
            stack.append([])
        elif token[0] in "])":
            found = re.search(r"\d+", token)
            times = int(found[0]) if found else 2 if "twice" in token else 1
            stack[-2].extend(stack.pop() * times)
        elif word := re.sub(r"^then ", "", token.strip()):
            if word != "then":
                stack[-1].append(word)
    (flat,) = stack
    return flat
