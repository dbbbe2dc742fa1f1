"""One task after another: matched, then timed. Each row of a result is plain
data, so that it can be kept."""

import os
import shutil
import tempfile

import programs
import tasks
from matching import coarsest, error
from running import median, run

# A run longer than this [s] is not repeated: its search was its measurement.
LONG = 5.0


class Measuring:
    def __init__(self, build, runs, say):
        self.build, self.runs, self.say = build, runs, say
        self.folder = tempfile.mkdtemp(prefix="compare")
        self.references = {}

    def close(self):
        shutil.rmtree(self.folder, ignore_errors=True)

    def answer(self, program, task, fineness, repeats=1):
        return run(programs.command(program, task, fineness, repeats,
                                    self.folder, self.build),
                   programs.PEERS)

    def reference(self, kind, tolerance):
        if kind not in self.references:
            self.say(f"  reference: {kind}, tolerance {tolerance:g}")
            made = self.answer("ours", "reference_" + kind, tolerance)
            if made.why:
                raise SystemExit(f"no reference of {kind}: {made.why}")
            self.references[kind] = made
        return self.references[kind]

    def reference_row(self, task, made):
        """What its own last refinement and a peer on a fine mesh say of it."""
        zero = {name: value + made.spreads[name]
                for name, value in made.figures.items()}
        row = {"task": task.reference[0], "tolerance": task.reference[1],
               "last_change": error(zero, made.figures)}
        for program in ("dolfinx", "getfem", "freefem"):
            peer = next((c for c in task.contestants if c.program == program),
                        None)
            if not peer or not programs.is_here(program):
                continue
            fine = self.answer(program, peer.task, task.check_fineness)
            if not fine.why:
                row |= {"peer": peer.who, "peer_fineness": task.check_fineness,
                        "peer_unknowns": fine.first("unknowns"),
                        "peer_off": error(fine.figures, made.figures)}
                break
        return row

    def timed(self, program, task, fineness, tried):
        long = tried.wall > LONG
        single = [tried] if long else [
            self.answer(program, task, fineness) for _ in range(self.runs)]
        again = [] if long else \
            self.answer(program, task, fineness, 1 + self.runs)
        sound = [r for r in single if not r.why]
        row = {"unknowns": tried.first("unknowns")}
        for word in ("cpu", "wall"):
            first = [r.first(word) for r in sound if r.first(word) > 0]
            row["first_" + word] = median(first)
            row["again_" + word] = row["first_" + word]
            if again and not again.why:
                row["again_" + word] = median(again.lists.get(word, [0])[1:])
        return row | {"process_wall": median([r.wall for r in sound]),
                      "process_cpu": median([r.cpu for r in sound]),
                      "memory": median([r.memory for r in sound])}

    def matched_row(self, contestant, task, figures):
        row = {"who": contestant.who, "what": contestant.what,
               "ours": contestant.ours, "blind": contestant.blind}
        if not programs.is_here(contestant.program):
            return row | {"none": "not installed"}
        # What is compiled or loaded once is out of the way after the search.
        fineness, off, tried = coarsest(
            contestant, task.error, figures,
            lambda f: self.answer(contestant.program, contestant.task, f))
        if fineness is None:
            return row | {"none": tried.why or f"{off:.1g} at best"}
        return row | {"fineness": fineness, "error": off} | self.timed(
            contestant.program, contestant.task, fineness, tried)

    def task(self, task):
        """All rows of a task, and what goes with them."""
        self.say(f"task {task.number}: {task.title}")
        if task.judge == "flat":
            return {"rows": self.large_rows(task), "floor": self.floor(task)}
        made = self.reference(*task.reference)
        rows = self.whole_rows() if task.judge == "seconds" else []
        for contestant in task.contestants:
            rows.append(self.matched_row(contestant, task, made.figures))
            self.tell(rows[-1])
        result = {"rows": rows, "floor": self.floor(task)}
        if task.judge == "ratio":
            result["reference"] = self.reference_row(task, made)
        return result

    def tell(self, row):
        name = row["who"] + (", " + row["what"] if row["what"] else "")
        if "none" in row:
            self.say(f"  {name}: none, {row['none']}")
        elif row.get("again_cpu"):
            self.say(f"  {name}: {1e3 * row['again_cpu']:.4g} ms of the "
                     f"processor, {row['unknowns']:.0f} unknowns")
        else:
            self.say(f"  {name}: {1e3 * row['process_wall']:.4g} ms")

    def floor(self, task):
        made = self.answer("ours", "floor_" + task.floor, task.error)
        return {} if made.why else {"bytes": made.first("bytes"),
                                    "flops": made.first("flops")}

    def large_rows(self, task):
        rows = []
        for contestant in task.contestants:
            for size in task.sizes:
                row = {"who": contestant.who, "what": f"{size:,}",
                       "ours": contestant.ours, "size": size}
                if not programs.is_here(contestant.program):
                    rows.append(row | {"none": "not installed"})
                    continue
                tried = self.answer(contestant.program, contestant.task, size)
                if tried.why:
                    row |= {"none": tried.why}
                else:
                    row |= self.timed(contestant.program, contestant.task, size,
                                      tried)
                rows.append(row)
                self.tell(row)
        return rows

    def whole_rows(self):
        """Our program itself; with and without what it keeps, where it does."""
        program = os.path.join(self.build, "io/cli/thinspot")
        keeps = "--no-cache" in programs.said(program, "solve", "--help")
        rows = []
        for what, options in (("geometry not known", ["--no-cache"]),
                              ("geometry solved before", [])):
            row = {"who": "thinspot", "what": what, "ours": True}
            known = not options
            if known and not keeps:
                rows.append(row | {"none": "it keeps nothing yet"})
                continue
            out = os.path.join(self.folder, "out")
            words = [program, "solve", os.path.join(
                programs.ROOT, "cases", tasks.WHOLE_CASE + ".toml"),
                "--quiet", "--out", out] + (options if keeps else [])
            all_runs = []
            for _ in range(self.runs + 1):  # the first fills caches
                shutil.rmtree(out, ignore_errors=True)
                all_runs.append(run(words, self.folder))
            written = sum(entry.stat().st_size for entry in os.scandir(out)
                          if entry.is_file()) if os.path.isdir(out) else 0
            if not written:
                rows.append(row | {"none": all_runs[-1].why})
                continue
            timed = all_runs[1:]
            rows.append(row | {
                "written": written,
                "process_wall": median([r.wall for r in timed]),
                "process_cpu": median([r.cpu for r in timed]),
                "memory": median([r.memory for r in timed])})
            self.tell(rows[-1])
        return rows
