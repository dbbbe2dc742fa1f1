"""What the page shows is what summary.json says."""

import math
import unittest

import solved
from page import shows


def thickness(data):
    """Least, mean and largest over all copies, with bands where told."""
    shown = solved.shown_part(data)["thickness_um"]
    if len(data["parts"]) == 1:
        return shown
    largest = max((p["thickness_um"] for p in data["parts"]),
                  key=lambda um: um["max"])
    return {"min": shown["min"], "min_band": shown["min_band"],
            "mean": data["rack"]["mean_thickness_um"]["mean"],
            "max": largest["max"], "max_band": largest["max_band"]}


def of(table, *keys):
    """Heads and the keys of a row that they show, as "cell.current_A"."""
    def pick(row, key):
        for part in key.split("."):
            row = row[part]
        return row
    return table, lambda row: [pick(row, key) for key in keys]


# Captions ("Faces of" goes on), and columns after the name to compare.
FACE = ["least µm", "mean µm", "largest µm", "mean A/dm²"]
FACE_KEYS = ["thickness_um.min", "thickness_um.mean", "thickness_um.max",
             "current_density_A_dm2.mean"]
COLUMNS = {
    "Faces of": of(FACE, *FACE_KEYS),
    "Parts on the rack": of(FACE, *FACE_KEYS),
    "Probes": of(["thickness µm", "A/dm²"], "thickness_um",
                 "current_density_A_dm2"),
    "Anodes": of(["current A", "largest A/dm²", "metal lost g"],
                 "current_A", "max_A_dm2", "mass_loss_g"),
    "Wires": of(["current A"], "current_A"),
    "Steps": of(["time min", "current A", "least µm until then"],
                "duration_min", "cell.current_A", "thickness_um.min"),
    "Layers, the first one lowest": of(
        ["time min", "voltage V"], "duration_min", "cell.voltage_V"),
}


def rows_of(data):
    """What each of these tables has a row for; none: no such table."""
    return {
        "Faces of": solved.shown_part(data)["faces"],
        "Parts on the rack": data["parts"] if len(data["parts"]) > 1 else [],
        "Probes": data["probes"], "Anodes": data["anodes"],
        "Wires": data["wires"], "Steps": data["steps"],
        "Layers, the first one lowest":
            data["layers"] if len(data["layers"]) > 1 else [],
    }


def sentences(words):
    """All sentences of summary.json's words, in lists or alone."""
    for value in words.values():
        yield from value if isinstance(value, list) else [value]


class Figures(unittest.TestCase):

    @solved.each_page()
    def test_the_verdict_is_the_summarys(self, name, page):
        data = solved.summary(name)
        targets = [layer["target"]["met"] for layer in data["layers"]
                   if layer.get("target")]
        self.assertTrue(targets)
        big = page.find("#verdict h2")[0].text
        self.assertIn("Target met" if all(targets) else "Target not met",
                      big)
        self.assertIn(data["words"]["verdict"],
                      page.find("#verdict")[0].text)

    @solved.each_page()
    def test_least_mean_and_largest_are_the_summarys(self, name, page):
        data = solved.summary(name)
        numbers, um = page.numbers(), thickness(data)
        for label, key in [("thinnest spot", "min"), ("mean", "mean"),
                           ("heaviest spot", "max")]:
            number = numbers[label]
            self.assertTrue(number.shows(um[key]), (number, um[key]))
            self.assertEqual(number.unit, "µm")
            if number.band:
                low, high = number.band.split(" to ")
                self.assertTrue(shows(low, um[key + "_band"][0]), low)
                self.assertTrue(shows(high, um[key + "_band"][1]), high)
        self.assertNotEqual(numbers["thinnest spot"].band, "")

    @solved.each_page()
    def test_current_voltage_and_time_are_the_summarys(self, name, page):
        data = solved.summary(name)
        numbers = page.numbers()
        took = sum(step["duration_min"] for step in data["steps"])
        self.assertEqual(numbers["time"].value, math.ceil(took - 1e-9))
        self.assertEqual(numbers["time"].unit, "min")
        if len(data["layers"]) > 1:
            self.assertNotIn("current", numbers)
            return
        for label, key in [("current", "current_A"),
                           ("voltage", "voltage_V")]:
            self.assertTrue(numbers[label].shows(data["cell"][key]),
                            (numbers[label], data["cell"][key]))

    @solved.each_page()
    def test_a_table_has_a_row_for_each(self, name, page):
        data = solved.summary(name)
        tables = page.tables()
        for start, wanted in rows_of(data).items():
            fitting = [rows for caption, rows in tables.items()
                       if caption == start or start == "Faces of" and
                       caption.startswith(start)]
            self.assertEqual(len(fitting), 1 if wanted else 0, start)
            for rows in fitting:
                self.assertEqual(len(rows) - 1, len(wanted), start)
                self.compare(start, rows, wanted)

    def compare(self, start, rows, wanted):
        """Names and numbers of a table's rows."""
        heads, picked = COLUMNS[start]
        columns = [rows[0].index(head) for head in heads]
        for k, (row, entry) in enumerate(zip(rows[1:], wanted)):
            name = str(k + 1) if start == "Steps" else entry["name"]
            self.assertEqual(row[0].removesuffix(" (not judged)"), name)
            for column, value in zip(columns, picked(entry)):
                self.assertTrue(
                    shows(row[column], value),
                    f"{start}, {name}: {row[column]} for {value}")

    @solved.each_page()
    def test_every_sentence_of_the_summary_is_said(self, name, page):
        data = solved.summary(name)
        said = page.text().casefold()
        told = [*sentences(data["words"]), *data["cautions"],
                *data["notes"]]
        self.assertGreater(len(told), 10)
        for sentence in filter(None, told):
            self.assertIn(" ".join(sentence.split()).casefold(), said)

    @solved.each_page()
    def test_the_title_is_the_cases(self, name, page):
        data = solved.summary(name)
        self.assertEqual(page.find("h1")[0].text, data["title"])
        self.assertEqual(page.run("return document.title"),
                         data["title"])
