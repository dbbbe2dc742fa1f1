"""How far off figures are, and the coarsest mesh that is good enough."""


def error(figures, reference):
    """Largest difference to any figure of the reference, of the mean there.

    Figures that the reference has and the answer lacks are an error."""
    worst = 0.0
    for name, value in reference.items():
        if name not in figures:
            return float("inf")
        worst = max(worst, abs(figures[name] - value) / mean_of(name, reference))
    return worst


def mean_of(name, reference):
    kind, _, number = name.partition("_")
    if kind != "mean" and "mean" + ("_" + number if number else "") in reference:
        return reference["mean" + ("_" + number if number else "")]
    return reference.get("mean", reference[name])


def rungs(contestant, aim):
    return [step * aim if contestant.relative else step
            for step in contestant.ladder]


def coarsest(contestant, aim, reference, answer):
    """Goes up the ladder; answer(fineness) is a Run.

    Returns the first fineness whose error is within the aim, that error and
    its run; or None, the best error that was seen, and the last run."""
    best, last = float("inf"), None
    for fineness in rungs(contestant, aim):
        last = answer(fineness)
        if last.why:
            break
        off = error(last.figures, reference)
        if off <= aim:
            return fineness, off, last
        best = min(best, off)
    return None, best, last
