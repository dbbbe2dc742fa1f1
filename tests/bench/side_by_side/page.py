"""docs/performance.md of the kept results."""

import judging
import tasks

HEAD = """# Performance

General-purpose finite-element programs on the tasks of this one, and what this
one takes. Written by `tests/bench/compare --page docs/performance.md` from what
was measured last; do not change it by hand.

How it is done: every program gets the same cell, and its mesh is made finer
until the figures (least, mean and largest current density) are within the error
aimed at of a reference. The coarsest such mesh is the one that is timed. So
peers know the answer beforehand, which their users do not; thinspot's first row
goes by its own error estimate. The reference is thinspot's at a far smaller
tolerance, and a peer on a fine mesh is asked about it. Peers' scripts are in
`tests/bench/peers`.

- *first* is the time from the drawing to the figures in a new process, *again*
  the same a second time and later; medians, of the processor, all on one thread.
  Peers have loaded their libraries before; thinspot loads Gmsh within the first.
  *Again* is what is compared.
- *process* is the whole process, from start to end, by the wall and by the
  processor; *memory* its largest resident set.
- *floor* is what one core of this machine cannot fall below: bytes that must
  move over measured bandwidth, or operations over measured peak, whichever is
  longer. Of a mesh: its matrix written and read, its Cholesky factor in
  CHOLMOD's order written and read twice. Of every further answer, the operator
  on the electrodes read once. Of large meshes: the matrix read once.
"""


def seconds(value):
    if not value:
        return "–"
    if value < 1e-6:
        return f"{1e9 * value:.3g} ns"
    if value < 1e-3:
        return f"{1e6 * value:.3g} µs"
    return f"{1e3 * value:.3g} ms" if value < 1 else f"{value:.3g} s"


def megabytes(value):
    return f"{value / 1e6:.0f} MB"


def name_of(row):
    name = row["who"] + (f": {row['what']}" if row["what"] else "")
    return f"**{name}**" if row["ours"] else name


def table(head, rows):
    lines = ["| " + " | ".join(head) + " |", "|" + "---|" * len(head)]
    return "\n".join(lines + ["| " + " | ".join(r) + " |" for r in rows])


def matched_table(rows):
    head = ["", "mesh", "error", "unknowns", "first", "again", "process, wall",
            "process, cpu", "memory", "fastest peer over it"]
    lines = []
    for row in rows:
        if "none" in row:
            lines.append([name_of(row), row["none"]] + [""] * 8)
            continue
        times = judging.times(row, rows) if row["ours"] else None
        lines.append([
            name_of(row), f"{row['fineness']:g}", f"{100 * row['error']:.2g} %",
            f"{row['unknowns']:.0f}", seconds(row["first_cpu"]),
            seconds(row["again_cpu"]), seconds(row["process_wall"]),
            seconds(row["process_cpu"]), megabytes(row["memory"]),
            f"{times:.3g}" if times else ""])
    return table(head, lines)


def large_table(rows):
    head = ["", "unknowns", "time", "for each unknown", "memory",
            "memory for each unknown"]
    lines = []
    for row in rows:
        if "none" in row:
            lines.append([name_of(row), row["none"]] + [""] * 4)
            continue
        lines.append([
            name_of(row), f"{row['unknowns']:.0f}", seconds(row["again_cpu"]),
            seconds(judging.per_unknown(row)), megabytes(row["memory"]),
            f"{row['memory'] / row['unknowns']:.0f} bytes"])
    return table(head, lines)


def whole_table(rows):
    lines = []
    for row in rows:
        if "none" in row:
            lines.append([name_of(row), row["none"]] + [""] * 2)
            continue
        lines.append([name_of(row), seconds(row["process_wall"]),
                      seconds(row["process_cpu"]), megabytes(row["memory"])])
    return table(["", "wall", "cpu", "memory"], lines)


TABLES = {"ratio": matched_table, "flat": large_table, "seconds": whole_table}


def reference_words(row):
    words = (f"Reference: tolerance {row['tolerance']:g}; its last tenfold "
             f"tightening changed it by {100 * row['last_change']:.1g} %.")
    if "peer" in row:
        words += (f" {row['peer']}, {row['peer_unknowns']:.0f} unknowns, is "
                  f"{100 * row['peer_off']:.1g} % from it.")
    return words


def floor_words(result, machine):
    mine = judging.sound(result["rows"], True)
    least = judging.floor_seconds(result, machine, mine[0] if mine else None)
    if least is None:
        return ""
    if mine and "size" in mine[0]:
        return (f"Floor: {seconds(least)} for each unknown; ours takes "
                f"{judging.per_unknown(mine[-1]) / least:.3g} times as long at "
                f"{mine[-1]['unknowns']:.0f}.")
    words = f"Floor: {seconds(least)}"
    if mine:
        words += f"; ours takes {judging.work(mine[0]) / least:.3g} times as long"
    return words + "."


def machine_words(machine):
    versions = ", ".join(f"{n} {v}" for n, v in machine["versions"].items())
    words = (f"{machine['processor']}, {machine['cores']} cores, "
             f"{machine['memory_GB']} GB, {machine['system']}; thinspot at commit "
             f"{machine['commit']}, a {machine['build']} build by g++ "
             f"{machine['compiler']}. {versions}.")
    if "bandwidth" in machine:
        words += (f" One core moves {machine['bandwidth'] / 1e9:.3g} GB/s, all "
                  f"{machine['bandwidth_all'] / 1e9:.3g}; at most "
                  f"{machine['flops'] / 1e9:.3g} and "
                  f"{machine['flops_all'] / 1e9:.3g} thousand million operations "
                  "a second.")
    return words


def summary(results):
    lines = []
    for task in tasks.TASKS:
        result = results["tasks"].get(str(task.number))
        lines.append([str(task.number), task.title, "not measured" if not result
                      else judging.verdict(task, result["rows"])])
    return table(["", "task", ""], lines)


def page(results):
    parts = [HEAD, summary(results)]
    if any(r.get("busy") for r in results["tasks"].values()):
        parts.append("**Measured while other work shared the machine:** times of "
                     "the processor are roughly right, times by the wall are "
                     "not.")
    for task in tasks.TASKS:
        result = results["tasks"].get(str(task.number))
        if not result:
            continue
        words = [judging.verdict(task, result["rows"]),
                 floor_words(result, result["machine"])]
        if "reference" in result:
            words.append(reference_words(result["reference"]))
        parts += [f"## {task.number}. {task.title}", task.says,
                  TABLES[task.judge](result["rows"]),
                  " ".join(w for w in words if w),
                  f"{result['machine']['date']}, {result['runs']} runs"
                  + (", while other work shared the machine" if result["busy"]
                     else "") + ". " + machine_words(result["machine"])]
    return "\n\n".join(p.strip("\n") for p in parts) + "\n"
