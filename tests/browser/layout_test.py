"""The page fits every width, and fingers and eyes on a phone."""

import unittest

import solved
from page import Page

WIDE = "return document.documentElement.scrollWidth"


class Layout(unittest.TestCase):

    @solved.each_page()
    def test_nothing_reaches_past_the_right_edge(self, name, page):
        """But what lies in a box that scrolls by itself."""
        for width in [320, 390, 768, 1240, 1920]:
            with self.subTest(name, width=width):
                page.resize(width)
                self.assertEqual(page.look("overflowing"), [])
                self.assertLessEqual(page.run(WIDE), width)

    def test_enlarged_pictures_stay_in_their_boxes(self):
        for width in [320, 390, 1240]:
            with self.subTest(width=width):
                page = Page(solved.report("token_one_sheet"), width)
                for button in page.find("figcaption button[aria-label]"):
                    button.click()
                self.assertEqual(len(page.find("figure.large")),
                                 len(page.find("figure.bench, #pictures figure")))
                self.assertEqual(page.look("overflowing"), [])
                self.assertLessEqual(page.run(WIDE), width)


class Phone(unittest.TestCase):

    @solved.each_page(width=390, height=844, phone=True)
    def test_the_page_does_not_scroll_sideways(self, name, page):
        self.assertEqual(page.run("return innerWidth"), 390)
        self.assertLessEqual(page.run(WIDE), 390)
        page.screenshot(f"{name}-390")

    @solved.each_page(width=390, height=844, phone=True)
    def test_text_can_be_read(self, name, page):
        self.assertEqual(page.look("smallText", 12), [])

    @solved.each_page(width=390, height=844, phone=True)
    def test_fingers_hit_what_they_aim_at(self, name, page):
        self.assertGreater(len(page.find("button, summary")), 3)
        self.assertEqual(page.look("lowTargets", 24), [])
