"""The page of a plan: figures, width, phone, keyboard, paper, no scripts."""

import functools
import json
import os
import pathlib
import unittest

from selenium.webdriver.common.keys import Keys

from keyboard_test import walk
from page import Page

FOLDER = pathlib.Path(os.environ["THINSPOT_PLANS"])
NAMES = sorted(entry.name for entry in FOLDER.iterdir())
WIDE = "return document.documentElement.scrollWidth"


def plan(name):
    """The plan of a case, as read from its plan.json."""
    return json.loads((FOLDER / name / "plan.json").read_text())


def each_plan(**how):
    """Runs a test, called with name and page, on the page of every plan."""
    def for_all(test):
        @functools.wraps(test)
        def run(self):
            for name in NAMES:
                with self.subTest(name):
                    test(self, name, Page(FOLDER / name / "plan.html", **how))
        return run
    return for_all


class Plan(unittest.TestCase):

    @each_plan()
    def test_it_opens_quietly_and_fetches_nothing(self, name, page):
        self.assertEqual(page.console(), [])
        self.assertTrue(all(url.startswith("file:")
                            for url in page.requests()), page.requests())

    @each_plan()
    def test_the_verdict_comes_first_with_its_figures(self, name, page):
        first = page.find("main h2")[0]
        self.assertEqual(first.get_attribute("class"), "big")
        figures = plan(name)["set_ups"][0]["figures"]
        numbers = page.numbers()
        self.assertTrue(numbers["thinnest spot"].shows(figures["least_um"]))
        self.assertTrue(numbers["current"].shows(figures["current_A"]))

    @each_plan()
    def test_tables_hold_what_the_plan_says(self, name, page):
        data, tables = plan(name), page.tables()
        rows = {row[0]: row for row in tables[
            "The set-up as drawn against the planned one"]}
        time = rows["time at the bench, min"]
        for shown, of in [(time[1], data["drawn"]),
                          (time[2], data["set_ups"][0])]:
            self.assertAlmostEqual(float(shown), of["figures"]["bench_min"],
                                   delta=0.005 * float(shown))
        if len(data["set_ups"]) > 1:
            names = [row[0] for row in tables[
                "What else would do, the one to take first"][1:]]
            self.assertEqual(names, [s["name"] for s in data["set_ups"]] +
                             ["as drawn"])
        trade = tables.get("What evenness costs in time, quickest first", [])
        self.assertEqual(len(trade[1:]), len(data["trade_off"]))

    @each_plan()
    def test_nothing_reaches_past_the_right_edge(self, name, page):
        for width in [320, 390, 768, 1240, 1920]:
            with self.subTest(name, width=width):
                page.resize(width)
                self.assertEqual(page.look("overflowing"), [])
                self.assertLessEqual(page.run(WIDE), width)

    @each_plan(width=390, height=844, phone=True)
    def test_a_phone_shows_all_of_it(self, name, page):
        self.assertLessEqual(page.run(WIDE), 390)
        self.assertEqual(page.look("smallText", 12), [])
        self.assertEqual(page.look("lowTargets", 24), [])
        page.screenshot(f"plan-{name}-390")

    @each_plan()
    def test_tab_reaches_all_in_the_order_of_the_page(self, name, page):
        wanted = page.look("tabStops")
        places = walk(page)
        self.assertEqual([place["path"] for place in places], wanted)
        for place in places:
            self.assertGreaterEqual(place["outline"], 2, place)

    def test_keys_enlarge_a_picture(self):
        page = Page(FOLDER / NAMES[0] / "plan.html")
        button = page.find("#weigh figcaption button")[0]
        page.run("arguments[0].focus()", button)
        page.press(Keys.ENTER)
        self.assertEqual(len(page.find("#weigh figure.large")), 1)
        self.assertEqual(page.look("overflowing"), [])

    @each_plan(width=718, prints=True)
    def test_paper_shows_all_of_it(self, name, page):
        self.assertEqual(page.look("overflowing"), [])
        page.pdf()
        self.assertEqual(page.find("#rest > details:not([open])"), [])

    @each_plan(scripts=False)
    def test_without_scripts_pictures_and_a_notice_are_there(self, name, page):
        self.assertIn("JavaScript", page.find(".notice")[0].text)
        self.assertGreaterEqual(len(page.find("figure svg")), 4)


if __name__ == "__main__":
    unittest.main()
