"""A page opened in the browser, and what tests ask of it."""

import base64
import json
import os
import pathlib
import re
from dataclasses import dataclass

from selenium.common.exceptions import NoAlertPresentException
from selenium.webdriver.common.action_chains import ActionChains

from browser import driver

IN_PAGE = pathlib.Path(__file__).with_name("in_page.js").read_text()


@dataclass
class Number:
    """A number as the page prints it.

    text: what stands there, as "8.8 µm"; value: the number in it, in minutes
    where hours are told, None where there is none ("dissolves"); unit: what
    follows it; band: the range printed with it, "" without one.
    """

    text: str
    value: float | None
    unit: str
    band: str

    def shows(self, value):
        """Whether it is `value`, rounded to the digits that are printed."""
        return shows(self.text, value)


@dataclass
class Timing:
    """Milliseconds. done: the script and the layout that follows from it;
    painted: until after the next frame, which comes 60 times a second."""

    done: float
    painted: float


def number_in(text):
    """The first number in a text; None where there is none."""
    hours = re.match(r"(\d+) h(?: (\d+) min)?$", text)
    if hours:
        return 60.0 * int(hours[1]) + int(hours[2] or 0)
    found = re.search(r"-?\d+(?:\.\d+)?(?:e[+-]?\d+)?", text)
    return float(found[0]) if found else None


def shows(text, value):
    """Whether the number in `text` is `value` within its printed digits.

    Half a unit of the last digit, and never more than a twentieth: a lone
    "9" for 8.6 would be no two digits. Zeros that end a whole number may be
    rounded ones.
    """
    printed = number_in(text)
    if printed is None:
        return False
    digits = re.search(r"-?(\d+)(?:\.(\d+))?(?:e([+-]?\d+))?", text)
    places = -len(digits[2] or "")
    if not digits[2]:
        places = len(digits[1]) - len(digits[1].rstrip("0"))
    half = 0.5 * 10.0 ** (places + int(digits[3] or 0))
    return abs(printed - value) <= min(half, 0.05 * abs(value)) * 1.0001


class Page:
    """A page of width x height CSS pixels, opened from its file.

    phone: the browser takes itself for a phone's (viewport mark, touch);
    scripts: False as where JavaScript is switched off; prints: True as the
    page looks on paper.
    """

    def __init__(self, path, width=1240, height=900, phone=False,
                 scripts=True, prints=False):
        self._driver = driver()
        self._messages, self._events = [], []
        self.resize(width, height, phone)
        self._command("Emulation.setEmulatedMedia",
                      media="print" if prints else "")
        self._command("Emulation.setScriptExecutionDisabled",
                      value=not scripts)
        self._driver.get("about:blank")  # what was before makes no noise here
        self._driver.get_log("browser")
        self._driver.get_log("performance")
        self._driver.get(pathlib.Path(path).absolute().as_uri())

    def _command(self, name, **arguments):
        return self._driver.execute_cdp_cmd(name, arguments)

    def resize(self, width, height=900, phone=False):
        """Gives the window another size, as __init__ has it."""
        self._command("Emulation.setDeviceMetricsOverride", width=width,
                      height=height, deviceScaleFactor=1, mobile=phone)

    # ---- scripts ----
    def run(self, script, *arguments):
        """What `script`, the body of a function, returns in the page."""
        return self._driver.execute_script(script, *arguments)

    def look(self, function, *arguments):
        """What a function of in_page.js returns in the page."""
        call = f"{IN_PAGE}\nreturn {function}(...arguments);"
        return self.run(call, *arguments)

    def timing(self, script):
        """How long `script`, the body of a function, takes: a Timing."""
        done, painted = self._driver.execute_async_script(
            "const tell = arguments[arguments.length - 1];"
            "const start = performance.now();"
            f"(function () {{ {script}\n }})();"
            "document.body.getBoundingClientRect();"
            "const done = performance.now() - start;"
            "requestAnimationFrame(() => setTimeout(() =>"
            " tell([done, performance.now() - start])));")
        return Timing(done, painted)

    # ---- what was said and fetched ----
    def console(self):
        """All messages of the page so far, as "LEVEL text"."""
        self._messages += [f"{entry['level']} {entry['message']}"
                           for entry in self._driver.get_log("browser")]
        return self._messages

    def requests(self):
        """Addresses of all that was asked for since the page was opened."""
        self._events += [json.loads(entry["message"])["message"]
                         for entry in self._driver.get_log("performance")]
        return [event["params"]["request"]["url"] for event in self._events
                if event["method"] == "Network.requestWillBeSent"]

    def alert(self):
        """The text of an open alert box, which is closed; None without."""
        try:
            box = self._driver.switch_to.alert
            text = box.text
            box.accept()
            return text
        except NoAlertPresentException:
            return None

    # ---- what is shown ----
    def find(self, selector):
        """All elements that a CSS selector names."""
        return self._driver.find_elements("css selector", selector)

    def seen(self, selector):
        """Those of find() that are shown, wherever on the page."""
        return self.look("seen", selector)

    def text(self):
        """All that the page says, folded parts among it.

        But not what stands there as it is in summary.json (pre).
        """
        return self.look("said")

    def numbers(self, within="#verdict"):
        """The figures of a card (dl.numbers): name -> Number.

        `within` is the CSS selector of what holds it, left out: the verdict.
        page.numbers()["thinnest spot"].value is in µm.
        """
        found = {}
        for name, text, band in self.look("figures", within):
            unit = re.sub(r"^[^\d]*-?[\d.]+(?:e[+-]?\d+)?\s*", "", text)
            value = number_in(text)
            if re.match(r"\d+ h", text):
                unit = "min"
            found[name] = Number(text, value, unit, band)
        return found

    def tables(self):
        """caption -> rows of cells' texts, the heads first where it has any.

        Two tables of the same caption are an error.
        """
        read = self.look("tables")
        captions = [caption for caption, _ in read]
        if len(set(captions)) != len(captions):
            raise ValueError(f"two tables of one caption among {captions}")
        return dict(read)

    # ---- hands ----
    def set_slider(self, label, value):
        """Moves the shown slider of that label (all its text, or aria-label).

        Its events are those of a hand: input, then change. Returns the value
        that it took, which keeps to its min, max and step. LookupError with
        the labels there are where none, or more than one, is called so.
        """
        taken, labels = self.look("setSlider", label, value)
        if taken is None:
            raise LookupError(f"not one slider called {label!r}: {labels}")
        return taken

    def press(self, *keys):
        """Presses keys (selenium's Keys or text), one after the other."""
        ActionChains(self._driver).send_keys(*keys).perform()

    # ---- on paper and as a picture ----
    def pdf(self):
        """The page printed, as the bytes of a PDF on A4."""
        made = self._command("Page.printToPDF", paperWidth=8.27,
                             paperHeight=11.69)
        return base64.b64decode(made["data"])

    def screenshot(self, name):
        """Leaves build/browser/NAME.png, the page in full length."""
        made = self._command("Page.captureScreenshot",
                             captureBeyondViewport=True)
        folder = pathlib.Path(os.environ["THINSPOT_PICTURES"])
        (folder / f"{name}.png").write_bytes(base64.b64decode(made["data"]))
