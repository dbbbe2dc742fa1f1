"""One Chromium for all tests, driven through Debian's chromedriver.

Paths are given, so that nothing is looked for, let alone downloaded; the
browser itself resolves no host name.
"""

import atexit
import functools
import shutil
import tempfile

from selenium import webdriver
from selenium.webdriver.chrome.options import Options
from selenium.webdriver.chrome.service import Service

FLAGS = [
    "--headless=new",
    "--no-sandbox",  # root, as in a container, has no other way
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--disable-background-networking",
    "--disable-component-update",
    "--no-first-run",
    "--no-default-browser-check",
    "--force-device-scale-factor=1",
    "--host-resolver-rules=MAP * ~NOTFOUND",
]


@functools.cache
def driver():
    """The browser, started when it is first asked for, ended with the tests.

    Its profile is a temporary folder. An alert box stays open, so that a test
    can find it.
    """
    profile = tempfile.mkdtemp(prefix="profile-")
    options = Options()
    options.binary_location = shutil.which("chromium")
    for flag in FLAGS + ["--user-data-dir=" + profile]:
        options.add_argument(flag)
    options.set_capability("unhandledPromptBehavior", "ignore")
    options.set_capability(
        "goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    service = Service(executable_path=shutil.which("chromedriver"))
    started = webdriver.Chrome(service=service, options=options)
    atexit.register(shutil.rmtree, profile, ignore_errors=True)
    atexit.register(started.quit)
    return started
