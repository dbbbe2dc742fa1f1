"""What a task's rows come to: how many times, and whether that is the goal."""

import tasks


def sound(rows, ours):
    return [r for r in rows if r["ours"] == ours and "none" not in r]


def work(row):
    """Seconds that are compared: of the processor, warm; whole programs by the
    wall."""
    return row.get("again_cpu") or row["process_wall"]


def times(row, rows, blind=False):
    """How many times as long the fastest peer takes as this row of ours; of all
    peers, or of those that do not know the answer beforehand."""
    peers = [p for p in sound(rows, False) if not blind or p.get("blind")]
    if "none" in row or not peers or not work(row):
        return None
    return min(work(p) for p in peers) / work(row)


def per_unknown(row):
    return row["again_cpu"] / row["unknowns"]


def spread(rows):
    """Most over least time for an unknown among the sizes of one program; None
    where a size has no answer."""
    if len(rows) < 2 or any("none" in r for r in rows):
        return None
    each = [per_unknown(r) for r in rows]
    return max(each) / min(each)


def verdict(task, rows):
    """A sentence on the goal, of the first row that is ours."""
    mine = [r for r in rows if r["ours"]]
    if task.judge == "ratio":
        found = times(mine[0], rows)
        goal = f"{task.goal:g} times as fast as the fastest peer"
        if found is None:
            return f"Goal: {goal}. Not measured."
        words = f"Goal: {goal}. Found: {found:.3g} times. {met(found >= task.goal)}"
        alike = times(mine[0], rows, True)
        if alike is not None:
            words += (f" Of the peers that, as ours, look for themselves when they "
                      f"are fine enough: {alike:.3g} times.")
        return words
    if task.judge == "flat":
        found = spread(mine)
        goal = (f"time for an unknown the same within {task.goal:g} times from "
                f"{task.sizes[0]:,} to {task.sizes[-1]:,} unknowns")
        if found is None:
            return f"Goal: {goal}. Not met: a size has no answer."
        return f"Goal: {goal}. Found: {found:.3g} times. {met(found <= task.goal)}"
    words = []
    for row, goal, when in zip(mine, (task.goal, tasks.WHOLE_GOAL_KNOWN),
                               ("", ", the geometry solved before")):
        if "none" in row:
            words.append(f"Goal: {goal:g} s{when}. Not there: {row['none']}.")
        else:
            words.append(f"Goal: {goal:g} s{when}. Found: "
                         f"{row['process_wall']:.3g} s. "
                         f"{met(row['process_wall'] <= goal)}")
    return " ".join(words)


def met(is_met):
    return "Met." if is_met else "Not met."


def floor_seconds(result, machine, row):
    """The least time in which one core of this machine could do it: all bytes
    moved, or all operations done, whichever takes longer."""
    counts = dict(result.get("floor") or {})
    if row and "written" in row:
        counts["bytes"] = counts.get("bytes", 0) + row["written"]
    if not counts or "bandwidth" not in machine:
        return None
    return max(counts["bytes"] / machine["bandwidth"],
               counts["flops"] / machine["flops"])
