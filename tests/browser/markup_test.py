"""Names and titles that look like markup are shown as they were written."""

import os
import re
import subprocess
import tempfile
import unittest
import pathlib

import solved
from page import Page

TITLE = ("</script></title></svg><script>alert(2)</script>"
         "<img src=x onerror=alert(1)> & \" @@SUMMARY@@")
NAME = "</script></svg><script>alert(3)</script> & \" <img>"
CASE = pathlib.Path(__file__).parents[2] / "cases" / "token_one_sheet.toml"


def marked_up(case):
    """The case with markup for its title and for all names in it.

    Names are numbered from 1, as no two may be alike.
    """
    counted = iter(range(1, 100))
    case = re.sub(r"^title *=.*$", f"title = '{TITLE}'", case,
                  flags=re.MULTILINE)
    return re.sub(r"^name *=.*$",
                  lambda line: f"name = '{NAME} {next(counted)}'", case,
                  flags=re.MULTILINE)


class Markup(unittest.TestCase):

    @classmethod
    def setUpClass(cls):
        folder = tempfile.TemporaryDirectory()
        cls.addClassCleanup(folder.cleanup)
        case = pathlib.Path(folder.name) / "marked.toml"
        case.write_text(marked_up(CASE.read_text()))
        subprocess.run([os.environ["THINSPOT_PROGRAM"], "solve", case,
                        "--quiet", "--out", case.with_suffix("")], check=True)
        cls.report = case.with_suffix("") / "report.html"

    def test_it_is_shown_as_text(self):
        page = Page(self.report)
        self.assertEqual(page.find("h1")[0].text, TITLE)
        self.assertEqual(page.run("return document.title"), TITLE)
        tables = page.tables()
        self.assertEqual(tables["Anodes"][1][0], f"{NAME} 2")
        self.assertEqual([row[0] for row in tables["Probes"][1:]],
                         [f"{NAME} 3", f"{NAME} 4"])
        self.assertEqual(
            page.run("return document.querySelector('#pictures svg > title')"
                     ".textContent"), TITLE)

    def test_nothing_is_made_or_run_by_it(self):
        """As many elements of every kind as with plain names, no alert."""
        kinds = ("const n = {}; for (const e of document.querySelectorAll("
                 "'script, img, title, svg, iframe, link, style'))"
                 " n[e.localName] = (n[e.localName] || 0) + 1; return n;")
        plain = Page(solved.report("token_one_sheet")).run(kinds)
        page = Page(self.report)
        self.assertIsNone(page.alert())
        self.assertEqual(page.run(kinds), plain)
        self.assertNotIn("img", plain)
        self.assertEqual(page.console(), [])
        self.assertEqual(len(page.requests()), 1)

    def test_long_names_do_not_widen_a_phones_page(self):
        page = Page(self.report, 390, 844, phone=True)
        page.screenshot("markup-390")
        self.assertEqual(page.look("overflowing"), [])
        self.assertLessEqual(
            page.run("return document.documentElement.scrollWidth"), 390)
