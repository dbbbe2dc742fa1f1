"""The page on paper, and where scripts are switched off."""

import os
import pathlib
import re
import unittest

import solved
from page import Page

A4_WITHOUT_MARGINS = 718  # CSS pixels across
A4_HEIGHT_WITHOUT_MARGINS = 1047


class Paper(unittest.TestCase):

    @solved.each_page()
    def test_it_prints_on_several_pages(self, name, page):
        folder = pathlib.Path(os.environ["THINSPOT_PICTURES"])
        made = page.pdf()
        (folder / f"{name}.pdf").write_bytes(made)
        self.assertTrue(made.startswith(b"%PDF-"))
        sheets = re.findall(rb"/Type\s*/Page\b", made)
        self.assertGreater(len(sheets), 1)
        self.assertLess(len(sheets), 30)
        self.assertEqual(page.console(), [])

    def test_what_was_folded_is_on_paper_too(self):
        page = Page(solved.report("token_one_sheet"))
        page.pdf()
        self.assertEqual(page.find("#rest > details:not([open])"), [])

    @solved.each_page(width=A4_WITHOUT_MARGINS, prints=True)
    def test_nothing_is_cut_off_at_the_right(self, name, page):
        """Paper does not scroll: no box may hide what is too wide."""
        self.assertEqual(page.look("overflowing"), [])
        self.assertEqual([button.text for button in page.find("button")
                          if button.is_displayed()], [])


    @solved.each_page(width=A4_WITHOUT_MARGINS, prints=True)
    def test_pictures_fill_their_boxes_and_fit_a_sheet(self, name, page):
        for picture in page.find("figure svg"):
            _, _, width, height = map(float, page.run(
                "return arguments[0].getAttribute('viewBox')",
                picture).split())
            box = picture.size
            self.assertAlmostEqual(box["height"] / box["width"],
                                   height / width, delta=0.01 * height / width)
            self.assertGreater(box["width"], 200)
            self.assertLess(box["height"], A4_HEIGHT_WITHOUT_MARGINS)


class WithoutScripts(unittest.TestCase):

    @solved.each_page()
    def test_pictures_and_a_notice_are_there(self, name, page):
        wanted = len(page.find("figure svg"))
        page = Page(solved.report(name), scripts=False)
        self.assertIn("JavaScript", page.find(".notice")[0].text)
        pictures = page.find("figure svg")
        self.assertEqual(len(pictures), wanted)
        for picture in pictures:
            self.assertTrue(picture.is_displayed())
        self.assertEqual(page.find("button"), [])
        self.assertEqual(page.console(), [])
