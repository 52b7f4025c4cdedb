"""Counts rounded together: all combinations of allowed counts are looked at."""

from fractions import Fraction
from itertools import combinations, product
from run import Case

ANSWERED = 0.4


def case(random):
    names = ["back", "neck", "shoulder", "cuff"][: random.randint(1, 4)]
    text, counts, demands = "", [], []
    for name in names:
        ideal = Fraction(random.randint(0, 400), 10)
        least = max(0, int(ideal) - random.randint(0, 4))
        most = least + random.randint(0, 7)
        weight = random.choice([1, 1, 1, 2, 3])
        multiple, extra = random.choice([(1, 0), (1, 0), (2, 0), (2, 1), (3, 1)])
        text += f'[[count]]\nname = "{name}"\nideal = "{ideal}"\nweight = {weight}\n'
        text += f"least = {least}\nmost = {most}\n"
        if multiple > 1:
            text += f"multiple = {multiple}\nextra = {extra}\n"
        fewest = 1 if multiple > 1 else 0
        allowed = [n for n in range(least, most + 1)
                   if (n - extra) % multiple == 0 and (n - extra) // multiple >= fewest]
        counts.append((name, ideal, weight, allowed))
    for number in range(random.randint(0, 3)):
        if len(names) < 2:
            break
        name, (holds, written) = f"demand {number + 1}", demand(random, names, counts)
        text += f'[[demand]]\nname = "{name}"\n{written}\n'
        demands.append((name, holds))
    return Case(["fit", "-"], (counts, demands), text)


def demand(random, names, counts):
    """A condition over the counts in their order, and how it is written."""
    one, other = random.sample(range(len(names)), 2)
    pair = f'["{names[one]}", "{names[other]}"]'
    about = [int(ideal) for _, ideal, _, _ in counts]
    match random.choice(["sum", "sum", "equal", "parity", "ordered", "ratio"]):
        case "sum":
            times = [random.choice([-2, -1, 1, 1, 2]) for _ in names]
            total = sum(t * n for t, n in zip(times, about)) + random.randint(-3, 3)
            room = random.choice([0, 0, 1, 2])
            terms = ", ".join(f"{name} = {t}" for name, t in zip(names, times))
            holds = lambda got: total <= sum(t * n for t, n in zip(times, got)) <= total + room
            return holds, f"sum = {{ {terms} }}\ntotal = [{total}, {total + room}]"
        case "equal":
            offset = about[one] - about[other] + random.randint(-2, 2)
            return (lambda got: got[one] == got[other] + offset), f"equal = {pair}\noffset = {offset}"
        case "parity":
            return (lambda got: (got[one] - got[other]) % 2 == 0), f"same_parity = {pair}"
        case "ordered":
            return (lambda got: got[one] <= got[other]), f"ordered = {pair}"
        case _:
            ratio = Fraction(max(1, about[one]), max(1, about[other])).limit_denominator(6)
            ratio = ratio or Fraction(1, 6)
            room = random.choice([Fraction(1, 10), Fraction(1, 4)])
            holds = lambda got: abs(got[one] - ratio * got[other]) <= room * got[other]
            return holds, f'ratio = {pair}\nis = "{ratio}"\ntolerance = "{room}"'


def judge(meaning, code, answer):
    counts, demands = meaning
    if not all(allowed for _, _, _, allowed in counts):
        return None if code in (1, 2) else "a count without an allowed value was not refused"
    every = list(product(*(allowed for _, _, _, allowed in counts)))
    best = min((cost(counts, got) for got in every if all(h(got) for _, h in demands)), default=None)
    if best is not None:
        if code != 0:
            return f"refused, but {best[-1]} would do"
        got = tuple(answer["counts"][name] for name, *_ in counts)
        if got != best[-1]:
            return f"{best[-1]} costs {best[0]}, this {cost(counts, got)[0]}"
        return None if answer["proved"] else "not told as proved"
    if code != 1:
        return "demands that cannot all hold were not refused"
    told = {member["demand"] for member in answer["conflict"]}
    fewest = least_conflict(every, demands)
    if len(told) != fewest:
        return f"{fewest} of the demands cannot hold already"
    if possible(every, [holds for name, holds in demands if name in told]):
        return "the demands told can all hold"
    return None


def cost(counts, got):
    """What is made least first, then next, then last."""
    off = [abs(n - ideal) for n, (_, ideal, _, _) in zip(got, counts)]
    weighed = sum(d * weight for d, (_, _, weight, _) in zip(off, counts))
    return weighed, max(off), got


def possible(every, conditions):
    return any(all(holds(got) for holds in conditions) for got in every)


def least_conflict(every, demands):
    for size in range(1, len(demands) + 1):
        for some in combinations(demands, size):
            if not possible(every, [holds for _, holds in some]):
                return size
    return None
