"""The cases that tests/browser/run has solved."""

import functools
import json
import os
import pathlib

from page import Page

FOLDER = pathlib.Path(os.environ["THINSPOT_PAGES"])
NAMES = sorted(entry.name for entry in FOLDER.iterdir())


def report(name):
    """The page of a case, as a path."""
    return FOLDER / name / "report.html"


def summary(name):
    """The summary of a case, as read from its summary.json."""
    return json.loads((FOLDER / name / "summary.json").read_text())


def shown_part(data):
    """On a rack the copy with the thinnest spot, the first of equals."""
    return min(data["parts"], key=lambda p: p["thickness_um"]["min"])


def each_page(**how):
    """Runs a test, called with name and page, on the page of every case.

    Each is a subtest; `how` goes to Page.
    """
    def for_all(test):
        @functools.wraps(test)
        def run(self):
            for name in NAMES:
                with self.subTest(name):
                    test(self, name, Page(report(name), **how))
        return run
    return for_all
