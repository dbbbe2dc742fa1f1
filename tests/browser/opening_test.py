"""A page opened from its file stands alone and has nothing to complain of."""

import unittest

import solved
from page import Page


class Opening(unittest.TestCase):

    def test_there_are_pages(self):
        self.assertGreaterEqual(len(solved.NAMES), 6)

    @solved.each_page()
    def test_no_message_in_the_console(self, name, page):
        for button in page.find("figcaption button"):
            button.click()
        self.assertEqual(page.console(), [])

    @solved.each_page()
    def test_nothing_but_the_file_itself_is_asked_for(self, name, page):
        own = solved.report(name).absolute().as_uri()
        asked = page.requests()
        self.assertIn(own, asked)
        self.assertEqual([url for url in asked if url != own and
                          not url.startswith("data:")], [])

    def test_a_script_from_elsewhere_would_not_run(self):
        """The page's own policy forbids whatever it does not name."""
        page = Page(solved.report("token_one_sheet"))
        page.run("const s = document.createElement('script');"
                 "s.textContent = 'window.ran = true';"
                 "document.body.append(s);")
        self.assertIsNone(page.run("return window.ran"))
        self.assertIn("Content Security Policy", " ".join(page.console()))

    def test_the_file_is_smaller_than_2_megabytes(self):
        for name in solved.NAMES:
            with self.subTest(name):
                self.assertLess(solved.report(name).stat().st_size, 2e6)

    @solved.each_page()
    def test_its_pictures_can_be_seen(self, name, page):
        """And screenshots of all, for whoever wants to look."""
        page.screenshot(name)
        pictures = page.find("figure svg")
        self.assertGreaterEqual(len(pictures), 3)
        for picture in pictures:
            self.assertGreater(picture.size["width"], 300)
            self.assertGreater(picture.size["height"], 100)
