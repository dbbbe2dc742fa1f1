"""What tests/bench/compare makes of answers, on samples: it needs no peers."""

import ast
import glob
import json
import os
import subprocess
import sys
import tempfile
import unittest
from unittest import mock

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

import judging
import keeping
import main
import page
import programs
import tasks
from matching import coarsest, error
from running import Run, parse, run

SAMPLE = os.path.join(programs.HERE, "sample.json")


def sample():
    with open(SAMPLE, encoding="utf-8") as kept:
        return json.load(kept)


def edited(number, **changes):
    """The sample's rows of a task, its first row changed."""
    rows = sample()["tasks"][str(number)]["rows"]
    rows[0].update(changes)
    return rows


class Scripts(unittest.TestCase):
    def test_parse(self):
        scripts = glob.glob(programs.PEERS + "/*.py") + \
            glob.glob(programs.HERE + "/*.py")
        self.assertGreater(len(scripts), 10)
        for script in scripts:
            with self.subTest(script=script), open(script, encoding="utf-8") as f:
                ast.parse(f.read())

    def test_every_contestant_knows_its_task(self):
        def words_of(name):
            with open(os.path.join(programs.PEERS, name), encoding="utf-8") as f:
                return f.read()
        texts = {"freefem": words_of("peer.edp"),
                 "dolfinx": words_of("gmsh_tasks.py"),
                 "getfem": words_of("gmsh_tasks.py")}
        with open(os.path.join(programs.PEERS, "../compare_ours.cpp"),
                  encoding="utf-8") as f:
            texts["ours"] = f.read()
        for task in tasks.TASKS:
            for c in task.contestants:
                with self.subTest(program=c.program, task=c.task):
                    # Of its own branch that language has none for a plain solve.
                    if (c.program, c.task) != ("freefem", "coin"):
                        self.assertIn(f'"{c.task}"', texts[c.program])


class Answers(unittest.TestCase):
    def test_lines_of_a_program(self):
        r = Run()
        parse("INFO: 3 things\nfigure least 1.5\nfigure mean 2 0.25\ncpu 0.5\n"
              "cpu 0.25\nunknowns 12\nfigure odd one\n", r)
        self.assertEqual(r.figures, {"least": 1.5, "mean": 2.0})
        self.assertEqual(r.spreads, {"mean": 0.25})
        self.assertEqual(r.lists, {"cpu": [0.5, 0.25], "unknowns": [12.0]})

    def test_a_program_that_fails_says_why(self):
        r = run([programs.PYTHON, "-c", "raise SystemExit('no mesh')"], "/tmp")
        self.assertEqual(r.why, "no mesh")

    def test_a_program_that_takes_too_long_is_ended(self):
        with mock.patch("running.SECONDS", 0.3):
            r = run([programs.PYTHON, "-c", "import time; time.sleep(60)"], "/tmp")
        self.assertEqual(r.why, "none within 0.3 s")
        self.assertLess(r.wall, 30)

    def test_memory_and_time_are_the_program_s_own(self):
        words = "x = bytearray(200_000_000); print('cpu', sum(range(10**6)) * 0)"
        r = run([programs.PYTHON, "-c", words], "/tmp")
        self.assertEqual(r.why, "")
        self.assertGreater(r.memory, 200e6)
        self.assertLess(r.memory, 300e6)
        self.assertGreater(r.cpu, 0)
        self.assertLess(r.cpu, r.wall + 0.1)
        # A small one after it does not inherit the large one's peak.
        self.assertLess(run([programs.PYTHON, "-c", "print('cpu', 1)"], "/tmp")
                        .memory, 100e6)

    def test_error_is_of_the_mean_beside_it(self):
        exact = {"least_1": 10.0, "mean_1": 100.0, "largest_1": 200.0}
        self.assertAlmostEqual(error(exact | {"largest_1": 201.0}, exact), 0.01)
        # Means of coins count against the mean of all.
        coins = {"mean": 100.0, "mean_3": 300.0}
        self.assertAlmostEqual(error({"mean": 100.0, "mean_3": 303.0}, coins), 0.03)

    def test_a_figure_that_is_missing_is_no_match(self):
        self.assertEqual(error({}, {"mean": 1.0}), float("inf"))


class Matching(unittest.TestCase):
    def answer(self, fineness):
        self.asked.append(fineness)
        return Run(figures={"mean": 1 + 0.1 / fineness**2})

    def setUp(self):
        self.asked = []

    def test_the_coarsest_that_will_do(self):
        peer = tasks.freefem("coin", [1, 2, 4, 8, 16])
        found, off, _ = coarsest(peer, 2e-3, {"mean": 1.0}, self.answer)
        self.assertEqual(found, 8)
        self.assertAlmostEqual(off, 0.1 / 64)
        self.assertEqual(self.asked, [1, 2, 4, 8])

    def test_none_will_do(self):
        peer = tasks.freefem("coin", [1, 2])
        found, off, _ = coarsest(peer, 1e-6, {"mean": 1.0}, self.answer)
        self.assertIsNone(found)
        self.assertAlmostEqual(off, 0.025)

    def test_a_failure_ends_the_search(self):
        peer = tasks.freefem("coin", [1, 2, 4])
        found, _, last = coarsest(peer, 1e-6, {"mean": 1.0},
                                  lambda f: Run(why="out of memory"))
        self.assertIsNone(found)
        self.assertEqual(last.why, "out of memory")

    def test_ours_go_by_the_error_aimed_at(self):
        mine = tasks.ours("certified", [1, 0.5], "")
        coarsest(mine, 1e-3, {"mean": 2.0}, self.answer)
        self.assertEqual(self.asked, [1e-3, 5e-4])


class Judging(unittest.TestCase):
    def test_ratio_of_the_fastest_peer(self):
        rows = edited(1, again_cpu=0.004)
        self.assertAlmostEqual(judging.times(rows[0], rows), 0.024 / 0.004)
        self.assertAlmostEqual(judging.times(rows[0], rows, True), 0.064 / 0.004)
        self.assertIn("Found: 6 times. Met.", judging.verdict(tasks.task(1), rows))
        slow = edited(1, again_cpu=0.012)
        self.assertIn("Found: 2 times. Not met.",
                      judging.verdict(tasks.task(1), slow))

    def test_peers_without_an_answer_do_not_count(self):
        rows = [r if r["ours"] else r | {"none": "not installed"}
                for r in edited(1)]
        self.assertIn("Not measured", judging.verdict(tasks.task(1), rows))

    def test_flat_over_sizes(self):
        self.assertIn("Found: 1.25 times. Met.",
                      judging.verdict(tasks.task(6), edited(6)))
        self.assertIn("Not met", judging.verdict(
            tasks.task(6), edited(6, again_cpu=2.0)))
        self.assertIn("a size has no answer", judging.verdict(
            tasks.task(6), edited(6, none="memory")))

    def test_seconds_of_the_whole_program(self):
        self.assertIn("Found: 0.2 s. Met. Goal: 0.1 s, the geometry solved before. "
                      "Not there", judging.verdict(tasks.task(7), edited(7)))
        self.assertIn("Found: 0.3 s. Not met.", judging.verdict(
            tasks.task(7), edited(7, process_wall=0.3)))

    def test_floor_is_the_longer_of_moving_and_counting(self):
        machine = {"bandwidth": 1e9, "flops": 1e10}
        of = {"floor": {"bytes": 2e6, "flops": 1e7}}
        self.assertAlmostEqual(judging.floor_seconds(of, machine, None), 2e-3)
        of = {"floor": {"bytes": 2e6, "flops": 1e8}}
        self.assertAlmostEqual(judging.floor_seconds(of, machine, None), 1e-2)


class Page(unittest.TestCase):
    def test_says_what_was_kept(self):
        text = page.page(sample())
        for words in ("## 1. One coin to 0.1 %", "0.032 %", "24 ms",
                      "GetFEM with Gmsh | not installed", "a generic build",
                      "not measured", "One core moves 34"):
            self.assertIn(words, text)
        self.assertNotIn("shared the machine", text)

    def test_says_where_others_were_at_work(self):
        results = sample()
        results["tasks"]["6"]["busy"] = True
        text = page.page(results)
        self.assertIn("**Measured while other work shared the machine:**", text)
        self.assertEqual(text.count(", while other work shared the machine"), 1)

    def test_tables_have_as_many_cells_in_every_line(self):
        cells = None
        for line in page.page(sample()).splitlines():
            if not line.startswith("|"):
                cells = None
                continue
            cells = cells or line.count("|")
            self.assertEqual(line.count("|"), cells, line)

    def test_kept_results_come_back(self):
        with tempfile.TemporaryDirectory() as folder:
            path = os.path.join(folder, "compare", "results.json")
            self.assertEqual(keeping.load(path), {"tasks": {}})
            keeping.save(path, sample())
            self.assertEqual(keeping.load(path), sample())
            with open(path, "w", encoding="utf-8") as spoilt:
                spoilt.write("{")
            with self.assertRaisesRegex(SystemExit, "cannot be read"):
                keeping.load(path)


class CommandLine(unittest.TestCase):
    def test_several_tasks(self):
        asked = main.options(["--build", "b", "--task", "3", "--task", "1",
                              "--runs", "2", "--anew"])
        self.assertEqual((asked.task, asked.runs, asked.anew), ([3, 1], 2, True))

    def test_bad_input_is_one_clear_line_and_status_2(self):
        for words in (["--task", "9"], ["--runs", "0"], ["--what"]):
            with self.subTest(words=words):
                ended = subprocess.run(
                    [sys.executable, "-B", os.path.join(programs.HERE, "main.py"),
                     "--build", "b"] + words, capture_output=True, text=True,
                    check=False)
                self.assertEqual(ended.returncode, 2)
                self.assertIn("error:", ended.stderr.splitlines()[-1])


if __name__ == "__main__":
    unittest.main()
