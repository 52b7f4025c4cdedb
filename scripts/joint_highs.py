"""Solves garments written by a test with HiGHS and compares the least sums."""

import json
import sys

import highspy

PARTS = 60
INF = highspy.kHighsInf


class Model:
    """A model that is built row by row."""

    def __init__(self):
        self.highs = highspy.Highs()
        self.highs.setOptionValue("output_flag", False)
        self.highs.setOptionValue("mip_rel_gap", 0.0)
        self.highs.setOptionValue("mip_abs_gap", 1e-9)
        self.columns = 0

    def column(self, cost, low, high, whole):
        self.highs.addCol(cost, low, high, 0, [], [])
        if whole:
            self.highs.changeColIntegrality(self.columns, highspy.HighsVarType.kInteger)
        self.columns += 1
        return self.columns - 1

    def row(self, low, high, terms):
        places, values = zip(*terms)
        self.highs.addRow(low, high, len(terms), list(places), list(values))


def size(count):
    return count["size"][0] / count["size"][1] if count["size"] else 1.0


def missed(model, weight, terms, wanted):
    """What the terms miss the wanted sum by costs its weight."""
    miss = model.column(weight, 0.0, INF, False)
    model.row(wanted, INF, terms + [(miss, 1.0)])
    model.row(-INF, wanted, terms + [(miss, -1.0)])


def least(problem):
    """The least sum of weighted misses; None when there is none."""
    model = Model()
    counts = problem["counts"]
    chosen = [model.column(0.0, c["low"], c["high"], True) for c in counts]

    def lengths(terms):
        sizes = [(times * size(counts[place]), place) for times, place in terms]
        hidden = sum(each * counts[place]["hidden"] for each, place in sizes)
        return [(chosen[place], each) for each, place in sizes], hidden

    for place, count in enumerate(counts):
        each = size(count)
        wanted = count["ideal"] / PARTS * each
        missed(model, count["weight"], [(chosen[place], each)], wanted)
        if count["repeat"]:
            multiple, extra = count["repeat"]
            repeats = model.column(0.0, 1, count["high"], True)
            model.row(extra, extra, [(chosen[place], 1.0), (repeats, -float(multiple))])
    for measure in problem["measures"]:
        terms, hidden = lengths(measure["terms"])
        missed(model, measure["weight"], terms, measure["wanted"] / PARTS + hidden)
    for demand in problem["demands"]:
        if "sum" in demand:
            terms = [(chosen[place], float(times)) for times, place in demand["sum"]]
            model.row(demand["low"], demand["high"], terms)
        elif "lengths" in demand:
            terms, hidden = lengths(demand["lengths"])
            low = -INF if demand["low"] is None else demand["low"] / PARTS + hidden
            high = INF if demand["high"] is None else demand["high"] / PARTS + hidden
            model.row(low, high, terms)
        elif "ratio" in demand:
            above, below = (chosen[place] for place in demand["ratio"])
            ratio, room = demand["is"][0] / demand["is"][1], demand["tolerance"] / PARTS
            model.row(0.0, INF, [(above, 1.0), (below, -(ratio - room))])
            model.row(-INF, 0.0, [(above, 1.0), (below, -(ratio + room))])
        elif "ordered" in demand:
            for one, other in zip(demand["ordered"], demand["ordered"][1:]):
                model.row(0.0, INF, [(chosen[other], 1.0), (chosen[one], -1.0)])
        else:
            for one, other in zip(demand["parity"], demand["parity"][1:]):
                half = model.column(0.0, -100_000, 100_000, True)
                terms = [(chosen[other], 1.0), (chosen[one], -1.0), (half, -2.0)]
                model.row(0.0, 0.0, terms)
    model.highs.run()
    if model.highs.getModelStatus() == highspy.HighsModelStatus.kInfeasible:
        return None
    return model.highs.getObjectiveValue()


def main(path):
    same = impossible = unproved = 0
    with open(path, encoding="utf-8") as lines:
        for line in lines:
            case = json.loads(line)
            ours = case["answer"]
            if "unproved" in ours:
                unproved += 1
                continue
            theirs = least(case["problem"])
            if theirs is None:
                assert "impossible" in ours, (case["seed"], ours)
                impossible += 1
                continue
            assert "total" in ours, (case["seed"], ours, theirs)
            near = abs(ours["total"] - theirs) <= 1e-4 * (1.0 + theirs)
            assert near, (case["seed"], ours["total"], theirs)
            same += 1
    print(f"{same} the same, {impossible} impossible, {unproved} not proved")
    assert same > 400 and impossible > 100 and unproved < 50


main(sys.argv[1])
