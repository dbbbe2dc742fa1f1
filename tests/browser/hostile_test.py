"""Pages and pictures of a case whose every text tries to be a script."""

import os
import pathlib
import time
import unittest

from page import Page

FOLDER = pathlib.Path(os.environ["THINSPOT_HOSTILE"])

# What tests/browser/hostile.toml tries in all its texts, one beside the other.
MARK = "__ran"
PICTURES = sorted(FOLDER.rglob("*.svg"))
PAGES = sorted(FOLDER.rglob("*.html"))


class Hostile(unittest.TestCase):

    def check_quiet(self, page):
        """No script of the case ran, nothing was asked for, no box opened."""
        time.sleep(0.2)  # an onerror needs a moment
        self.assertIsNone(page.alert())
        self.assertEqual(page.run(f"return typeof window.{MARK}"),
                         "undefined")
        self.assertEqual([asked for asked in page.requests()
                          if not asked.startswith(("file://", "data:"))], [])
        self.assertLessEqual(
            len([asked for asked in page.requests()
                 if asked.startswith("file://")]), 1)
        self.assertEqual(page.run("return location.pathname").rsplit("/")[-1],
                         page.run("return document.URL").rsplit("/")[-1])

    def check_no_way_in(self, page):
        """No element, attribute or address that the case brought with it."""
        self.assertEqual(page.run("""
            const found = [];
            for (const e of document.querySelectorAll("*")) {
              if (e.matches("img, iframe, object, embed, base, form, meta"
                            + "[http-equiv=refresh]"))
                found.push(e.outerHTML.slice(0, 99));
              for (const a of e.attributes)
                if (/^on/i.test(a.name)
                    || /^\\s*(javascript|vbscript|data:text)/i.test(a.value))
                  found.push(a.name + "=" + a.value);
            }
            return found;"""), [])

    def test_there_is_one_of_each(self):
        self.assertEqual(
            [page.name for page in PAGES],
            ["compare.html", "fit.html", "report.html", "plan.html",
             "report.html"])
        self.assertGreaterEqual(len(PICTURES), 10)

    def test_pages_show_text_as_text(self):
        for path in PAGES:
            with self.subTest(path.name):
                page = Page(path)
                page.look("unfold")
                self.check_quiet(page)
                self.check_no_way_in(page)
                self.assertIn("<script>window.__ran", page.text())
                self.assertIn(f"</script><script>window.{MARK}",
                              page.run("return document.title"))

    def test_pages_without_scripts(self):
        for path in PAGES:
            with self.subTest(path.name):
                page = Page(path, scripts=False)
                self.assertEqual(
                    [asked for asked in page.requests()
                     if not asked.startswith(("file://", "data:"))], [])

    def test_what_is_pressed_does_not_run_either(self):
        for path in PAGES:
            with self.subTest(path.name):
                page = Page(path)
                page.look("unfold")
                page.run("""for (const b of document.querySelectorAll(
                    "button, summary")) b.click();""")
                self.check_quiet(page)
                self.check_no_way_in(page)

    def test_pictures_alone(self):
        for path in PICTURES:
            with self.subTest(str(path.relative_to(FOLDER))):
                page = Page(path)
                self.check_quiet(page)
                self.check_no_way_in(page)
                self.assertEqual(page.find("script, foreignObject, a"), [])
