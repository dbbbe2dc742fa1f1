"""The sliders of the page against the program, computed anew."""

import json
import os
import pathlib
import shlex
import statistics
import subprocess
import tempfile
import unittest

from page import Page
from solved import report, summary

TESTS = pathlib.Path(__file__).parent
CASES = TESTS.parents[1] / "cases"
ALONE = ["token_one_sheet", "spoon_two_sheets", "bracket_from_recipe",
         "rack_of_six", "token_on_motor"]
SHOWN = "#what-if .what-if:not([hidden])"


def program(cases, settings, folder):
    """summary.json of cases solved with some --set, as the page words them."""
    command = [os.environ["THINSPOT_PROGRAM"], "solve", *cases, "--quiet",
               "--out", folder, *settings]
    subprocess.run(command, check=True)
    return json.loads((pathlib.Path(folder) / "summary.json").read_text())


class WhatIf:
    """The card on which other settings are tried."""

    def __init__(self, name, page=None, **size):
        self.page = Page(page or report(name), **size)
        self.rest()

    def rest(self):
        """Waits until all is drawn."""
        self.page.timing("")

    def data(self):
        """What the card shows, unrounded, in SI units."""
        read = self.page.run(
            f"return Object.assign({{}}, document.querySelector({SHOWN!r})"
            ".dataset);")
        return {name: float(value) for name, value in read.items()}

    def slide(self, label, value):
        self.page.set_slider(label, value)
        self.rest()
        return self.data()

    def choose(self, label, value):
        """Picks an option of a list."""
        self.page.run(
            "const [label, value] = arguments;"
            "const list = [...document.querySelectorAll('select')].find("
            "  (s) => s.getAttribute('aria-label') === label ||"
            "    (s.labels[0] && s.labels[0].textContent.trim() === label));"
            "list.value = value;"
            "list.dispatchEvent(new Event('change'));", label, value)
        self.rest()
        return self.data()

    def settings(self):
        """The words for the command line that the card gives."""
        return shlex.split(self.page.run(
            f"return document.querySelector({SHOWN!r} + ' code')"
            ".textContent;"))


class AgainstTheProgram(unittest.TestCase):

    def compare(self, found, data, what):
        """0.1 % of the mean, in which the program's own tolerance is told."""
        parts = data["parts"]
        area = sum(part["area_cm2"] for part in parts)
        um = [part["thickness_um"] for part in parts]
        mean = sum(part["thickness_um"]["mean"] * part["area_cm2"]
                   for part in parts) / area
        cell = data["cell"]
        for name, value in [("least", min(u["min"] for u in um)),
                            ("mean", mean),
                            ("largest", max(u["max"] for u in um))]:
            off = abs(1e6 * found[name] - value) / mean
            self.assertLess(off, 1e-3, f"{what}: {name}")
        for name, value in [("current", cell["current_A"]),
                            ("voltage", cell["voltage_V"])]:
            self.assertLess(abs(found[name] / value - 1), 1e-3,
                            f"{what}: {name}")

    def test_it_begins_where_the_case_is(self):
        for name in ALONE:
            with self.subTest(name):
                self.compare(WhatIf(name).data(), summary(name), name)

    def test_sliders_moved_give_what_the_program_gives(self):
        moves = [
            {"Current": 700, "Solution conducts": 520},
            {"Current": 250, "Polarization at the part": 300},
            {"Solution conducts": 900, "Time": 650},
            {"Voltage limit": 300},
            {"Share of the current that makes metal": 700, "Time": 300},
        ]
        for name in ["token_one_sheet", "rack_of_six", "token_on_motor"]:
            for move in moves:
                card = WhatIf(name)
                found = {}
                for label, value in move.items():
                    if label == "Current" and name == "rack_of_six":
                        label = "Current density, mean"
                    found = card.slide(label, value)
                settings = card.settings()
                self.assertTrue(settings)
                with self.subTest(name, settings=settings), \
                        tempfile.TemporaryDirectory() as folder:
                    anew = program([CASES / f"{name}.toml"], settings, folder)
                    self.compare(found, anew, f"{name} {settings}")

    def test_the_words_hold_all_that_was_turned(self):
        moves = {
            "two_supplies": [
                {"Current": 700, "Polarization at the part": 300},
                {"Solution conducts": 300, "Voltage limit": 250},
                {"Current": 400, "Voltage limit": 400,
                 "Share of the current that makes metal": 600},
            ],
            "own_supply": [
                {"Current": 300, "Polarization at the part": 700},
                {"Voltage limit": 200, "Time": 300},
                {"Step 2: turning": "6"},
                {"Step 2: turning": "2", "Step 3: turning": "1",
                 "Current": 650},
                {"Step 3: turning": "4"},
            ],
        }
        for name, of_case in moves.items():
            with self.subTest(name), \
                    tempfile.TemporaryDirectory() as folder:
                self.compare_moved(name, of_case, pathlib.Path(folder))

    def compare_moved(self, name, moves, folder):
        case = TESTS / f"{name}.toml"
        drawn = program([case], [], folder / "drawn")
        page = folder / "drawn" / "report.html"
        self.compare(WhatIf(name, page).data(), drawn, name)
        for move in moves:
            card = WhatIf(name, page)
            for label, value in move.items():
                found = (card.choose if isinstance(value, str)
                         else card.slide)(label, value)
            settings = card.settings()
            with self.subTest(name, settings=settings):
                anew = program([case], settings, folder / "anew")
                self.compare(found, anew, f"{name} {settings}")

    def test_an_adapter_has_no_limit_to_slide(self):
        case = (CASES / "token_two_sheets.toml").read_text()
        for line in ["voltage_limit = \"6 V\"", "adapter_voltage = \"6 V\""]:
            with self.subTest(line), \
                    tempfile.TemporaryDirectory() as folder:
                path = pathlib.Path(folder) / "adapter.toml"
                path.write_text(case.replace("voltage_limit = \"6 V\"", line))
                program([path], [], folder + "/out")
                page = Page(pathlib.Path(folder) / "out" / "report.html")
                self.assertEqual("Voltage limit" in page.text(),
                                 line.startswith("voltage_limit"))

    def test_turns_are_those_of_the_program(self):
        card = WhatIf("token_on_motor")
        found = card.choose("Step 2: turning", "4")
        with tempfile.TemporaryDirectory() as folder:
            case = (CASES / "token_on_motor.toml").read_text()
            lines = [line for line in case.splitlines()
                     if not line.startswith("turning")]
            at = max(k for k, line in enumerate(lines)
                     if line.strip() == "[[step]]")
            lines.insert(at + 1, "turning = { positions = 4 }")
            path = pathlib.Path(folder) / "turned.toml"
            path.write_text("\n".join(lines))
            self.compare(found, program([path], [], folder + "/out"),
                         "four positions")

    def test_each_layer_is_itself(self):
        name = "token_copper-token_nickel"
        layers = summary(name)["layers"]
        card = WhatIf(name)
        for k, layer in enumerate(layers):
            found = card.choose("Layer, by itself:", str(k))
            self.compare(found, layer, layer["name"])

    def test_the_words_say_which_layer_they_are_for(self):
        name = "token_copper-token_nickel"
        card = WhatIf(name)
        card.choose("Layer, by itself:", "1")
        found = card.slide("Current", 700)
        settings = card.settings()
        self.assertTrue(settings)
        with tempfile.TemporaryDirectory() as folder:
            files = [CASES / f"{layer}.toml" for layer in name.split("-")]
            anew = program(files, settings, folder)
            self.compare(found, anew["layers"][1], settings)


class Knobs(unittest.TestCase):

    def test_they_stop_where_the_mesh_is_good_no_longer(self):
        card = WhatIf("token_one_sheet")
        card.slide("Current", 1000)
        found = card.slide("Solution conducts", 0)
        self.assertGreaterEqual(found["resolved"], 0.5 * (1 - 1e-6))
        self.assertLess(found["resolved"], 0.52)
        self.assertIn("The knobs stop here", card.page.text())

    def test_the_way_back(self):
        card = WhatIf("token_one_sheet")
        before = card.data()
        card.slide("Current", 300)
        card.slide("Voltage limit", 100)
        card.page.run("[...document.querySelectorAll('#what-if button')]"
                      ".find((b) => b.textContent === 'Back to the case')"
                      ".click();")
        card.rest()
        after = card.data()
        for name in ["least", "mean", "largest", "current", "voltage"]:
            self.assertEqual(before[name], after[name])
        self.assertEqual(card.settings(), [])

    def test_what_burns_is_said(self):
        card = WhatIf("token_one_sheet")
        self.assertNotIn("where the coating burns", card.page.text())
        card.slide("Current", 900)
        self.assertIn("where the coating burns", card.page.text())

    def test_steps_count_one_by_one(self):
        card = WhatIf("token_on_motor")
        whole = card.data()
        first = card.slide("Shown after step", 1)
        um = summary("token_on_motor")["steps"][0]["thickness_um"]
        self.assertLess(abs(1e6 * first["least"] - um["min"]),
                        1e-3 * um["max"])
        self.assertLess(first["mean"], whole["mean"])


class Places(unittest.TestCase):

    def test_a_place_is_shown_in_both_pictures(self):
        page = Page(report("token_one_sheet"))
        page.set_slider("Place along the surface", 40)
        shown = page.run(
            "return [...document.querySelectorAll("
            "'#pictures circle[visibility=visible]')].length;")
        self.assertEqual(shown, 3)  # tank, close-up, chart
        said = page.find("#beside .readout")[0].text
        self.assertRegex(said, r"mm along, [\d.]+ µm, [\d.]+ A/dm²")

    def test_the_liquid_tells_its_current(self):
        page = Page(report("token_one_sheet"))
        titles = page.run(
            "return [...document.querySelectorAll('#left path > title')]"
            ".map((t) => t.textContent);")
        self.assertTrue(any("A/dm² in the liquid" in t for t in titles))
        self.assertTrue(any(t.endswith(" V") for t in titles))


class Speed(unittest.TestCase):
    """Printed, not judged: how long a machine takes is no defect."""

    def test_how_long_an_answer_takes(self):
        for name, turning in [("token_one_sheet", None),
                              ("token_on_motor", "24"),
                              ("rack_of_six", None)]:
            card = WhatIf(name)
            if turning:
                card.choose("Step 2: turning", turning)
            solve, draw = [], []
            for value in range(480, 560, 5):
                found = card.slide("Solution conducts", value)
                solve.append(found["solve"])
                draw.append(found["milliseconds"])
            print(f"{name}: {found['nodes']:.0f} nodes on metal, answer "
                  f"{statistics.median(solve):.1f} ms, drawing "
                  f"{statistics.median(draw):.1f} ms (medians of "
                  f"{len(solve)}; a frame has 16)")
            self.assertGreater(found["nodes"], 0)


if __name__ == "__main__":
    unittest.main()
