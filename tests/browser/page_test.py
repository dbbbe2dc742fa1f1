"""The helpers of page.py themselves, on a page made for them."""

import pathlib
import tempfile
import time
import unittest

from page import Page, number_in, shows

PAGE = """<!DOCTYPE html><html lang="en"><meta charset="utf-8"><title>-</title>
<label for="a">gap</label>
<input type="range" id="a" min="10" max="60" step="5" value="20">
<input type="range" aria-label="time" min="0" max="9" value="1">
<input type="range" aria-label="twice"><input type="range" aria-label="twice">
<div id="verdict"><dl class="numbers">
<div><dt>thinnest spot</dt><dd>8.8 µm<span class="band">7.5 to 9.8 µm</span>
</dd></div><div><dt>time</dt><dd>2 h 5 min</dd></div>
<div><dt>mean</dt><dd>dissolves</dd></div></dl></div>
<p id="said">-</p>
<p style="color: #888; background: #fff; font-size: 11px">pale, small</p>
<div style="width: 3000px">wide</div>
<script>
  document.getElementById("a").addEventListener("input", (event) => {
    document.getElementById("said").textContent = event.target.value;
  });
</script>"""


class Helpers(unittest.TestCase):

    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        path = pathlib.Path(folder.name) / "page.html"
        path.write_text(PAGE)
        self.page = Page(path)

    def test_a_slider_moves_as_by_hand(self):
        self.assertEqual(self.page.set_slider("gap", 42), 40)
        self.assertEqual(self.page.find("#said")[0].text, "40")
        self.assertEqual(self.page.set_slider("time", 100), 9)

    def test_a_slider_is_named_without_doubt(self):
        for label in ["depth", "twice"]:
            with self.assertRaisesRegex(LookupError, "gap.*time"):
                self.page.set_slider(label, 3)

    def test_numbers_come_with_unit_and_band(self):
        numbers = self.page.numbers()
        least = numbers["thinnest spot"]
        self.assertEqual((least.value, least.unit, least.band),
                         (8.8, "µm", "7.5 to 9.8 µm"))
        self.assertTrue(least.shows(8.84))
        self.assertFalse(least.shows(8.86))
        self.assertEqual((numbers["time"].value, numbers["time"].unit),
                         (125, "min"))
        self.assertIsNone(numbers["mean"].value)

    def test_numbers_are_compared_by_their_digits(self):
        self.assertEqual(number_in("1.2e-5 A"), 1.2e-5)
        self.assertTrue(shows("1230 min", 1234))
        self.assertFalse(shows("1234 min", 1235))
        self.assertFalse(shows("100", 140))
        self.assertTrue(shows("0", 0))
        self.assertFalse(shows("0", 0.01))
        self.assertFalse(shows("dissolves", 0))

    def test_a_script_is_timed(self):
        took = self.page.timing(
            "const end = performance.now() + 30;"
            "while (performance.now() < end) {}")
        self.assertGreaterEqual(took.done, 30)
        self.assertGreaterEqual(took.painted, took.done)
        self.assertLess(took.painted, 3000)

    def alert_soon(self):
        """The alert's text; the box needs a moment to open."""
        end = time.monotonic() + 5
        while time.monotonic() < end:
            text = self.page.alert()
            if text is not None:
                return text
        return None

    def test_what_is_wrong_is_seen(self):
        """Small, pale and wide text; a message, an alert, a request."""
        page = self.page
        self.assertEqual(len(page.look("smallText", 12)), 1)
        self.assertEqual(len(page.look("pale", 4.5)[1]), 1)
        self.assertEqual(len(page.look("overflowing")), 1)
        page.run("console.warn('hear me'); setTimeout(() => alert('see'));"
                 "fetch('http://127.0.0.1:9/none').catch(() => {});")
        self.assertEqual(self.alert_soon(), "see")
        self.assertIn("hear me", " ".join(page.console()))
        self.assertIn("http://127.0.0.1:9/none", page.requests())
