"""The pages of a fit and of a comparison: width, phone, paper, keyboard."""

import functools
import json
import os
import pathlib
import unittest

from keyboard_test import walk
from page import Page

FOLDER = pathlib.Path(os.environ["THINSPOT_BENCH"])
PAGES = {name: FOLDER / name / f"{name}.html" for name in ["fit", "compare"]}
WIDE = "return document.documentElement.scrollWidth"


def each_bench_page(**how):
    """Runs a test, called with name and page, on both pages."""
    def for_all(test):
        @functools.wraps(test)
        def run(self):
            for name, path in PAGES.items():
                with self.subTest(name):
                    test(self, name, Page(path, **how))
        return run
    return for_all


class Bench(unittest.TestCase):

    @each_bench_page()
    def test_it_opens_quietly_and_fetches_nothing(self, name, page):
        self.assertEqual(page.console(), [])
        self.assertTrue(all(url.startswith("file:")
                            for url in page.requests()), page.requests())

    @each_bench_page()
    def test_nothing_reaches_past_the_right_edge(self, name, page):
        for width in [320, 390, 768, 1240, 1920]:
            with self.subTest(name, width=width):
                page.resize(width)
                self.assertLessEqual(page.run(WIDE), width)

    @each_bench_page(width=390, height=844, phone=True)
    def test_a_phone_shows_all_of_it(self, name, page):
        self.assertLessEqual(page.run(WIDE), 390)
        self.assertEqual(page.look("smallText", 12), [])
        page.screenshot(f"bench-{name}-390")

    @each_bench_page()
    def test_tab_reaches_all_in_the_order_of_the_page(self, name, page):
        places = walk(page)
        self.assertEqual([place["path"] for place in places],
                         page.look("tabStops"))
        for place in places:
            self.assertGreaterEqual(place["outline"], 2, place)

    @each_bench_page(width=718, prints=True)
    def test_paper_shows_all_of_it(self, name, page):
        page.pdf()

    def test_the_fit_says_what_its_file_does_without_a_script(self):
        page = Page(PAGES["fit"], scripts=False)
        data = json.loads((FOLDER / "fit" / "fit.json").read_text())
        self.assertIn(data["words"]["verdict"],
                      page.find(".verdict")[0].text)
        rows = page.find("#read tbody tr")
        self.assertEqual(len(rows), len(data["readings"]))
        self.assertEqual(page.find("pre")[0].text.strip(),
                         data["fragment"].strip())
        self.assertEqual(len(page.find("figure svg")), 3)


if __name__ == "__main__":
    unittest.main()
