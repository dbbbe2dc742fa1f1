"""The page without a mouse."""

import unittest

from selenium.webdriver.common.keys import Keys

import solved
from page import Page


def walk(page):
    """Where Tab leads from the top of the page until it leaves it."""
    places = []
    while len(places) < 200:
        page.press(Keys.TAB)
        place = page.look("focused")
        if place is None or (places and place["path"] == places[0]["path"]):
            return places
        places.append(place)
    raise AssertionError("Tab finds no end")


class Keyboard(unittest.TestCase):

    @solved.each_page()
    def test_tab_reaches_all_in_the_order_of_the_page(self, name, page):
        wanted = page.look("tabStops")
        self.assertGreater(len(wanted), 5)
        self.assertIn("a.skip", wanted[0])
        # From the end Tab goes on to those, so that the walk finds nothing.
        self.assertEqual(page.find(
            "[tabindex]:not([tabindex='0']):not([tabindex='-1'])"), [])
        places = walk(page)
        self.assertEqual([place["path"] for place in places], wanted)
        for place in places:
            self.assertGreaterEqual(place["outline"], 2, place)
            self.assertTrue(place["inSight"], place)

    def test_the_skip_link_leads_to_the_pictures(self):
        page = Page(solved.report("token_one_sheet"))
        page.press(Keys.TAB, Keys.ENTER)
        self.assertEqual(page.run("return document.activeElement.id"),
                         "pictures")
        page.press(Keys.TAB)
        self.assertEqual(page.run("return document.activeElement.localName"),
                         "button")

    def test_enter_and_space_enlarge_a_picture(self):
        for key in [Keys.ENTER, Keys.SPACE]:
            page = Page(solved.report("token_one_sheet"))
            figures = page.find("#pictures figure")
            self.assertGreaterEqual(len(figures), 3)
            for figure in figures:
                button = figure.find_element(
                    "css selector", "figcaption button")
                before = figure.find_element("css selector", "svg").size
                page.run("arguments[0].focus()", button)
                page.press(key)
                self.assertEqual(figure.get_attribute("class"), "large")
                self.assertTrue(button.text.startswith("Back"), button.text)
                after = figure.find_element("css selector", "svg").size
                self.assertGreater(after["width"], before["width"])
                page.press(key)
                self.assertEqual(figure.get_attribute("class"), "")
                self.assertEqual(button.text, "Enlarge")

    def test_enter_and_space_unfold_the_details(self):
        for key in [Keys.ENTER, Keys.SPACE]:
            page = Page(solved.report("token_one_sheet"))
            folded = page.find("details")
            self.assertEqual(len(folded), 2)
            for details in folded:  # the outer one first
                self.assertIsNone(details.get_attribute("open"))
                summary = details.find_element("css selector", "summary")
                page.run("arguments[0].focus()", summary)
                page.press(key)
                self.assertEqual(details.get_attribute("open"), "true")
