"""Which commands run what, which versions they are, which build is ours."""

import os
import platform
import re
import shutil
import subprocess
import time

PYTHON = "/usr/bin/python3"  # Debian's own: its packages are not for another
HERE = os.path.dirname(os.path.abspath(__file__))
PEERS = os.path.join(os.path.dirname(HERE), "peers")
ROOT = os.path.dirname(os.path.dirname(os.path.dirname(HERE)))
PACKAGES = {"FreeFem++": "freefem++", "dolfinx": "python3-dolfinx",
            "GetFEM": "python3-getfem", "Gmsh": "libgmsh4.8"}


def command(program, task, fineness, repeats, folder, build):
    tail = [task, f"{fineness:g}", str(repeats), folder]
    if program == "ours":
        return [os.path.join(build, "tests/bench/compare_ours")] + tail
    if program == "freefem":
        return ["FreeFem++", "-nw", "-v", "0", "peer.edp"] + tail
    return [PYTHON, f"{program}_peer.py"] + tail


def is_here(program):
    if program == "freefem":
        return shutil.which("FreeFem++") is not None
    if program == "ours":
        return True
    return subprocess.run([PYTHON, "-c", f"import gmsh, {program}"],
                          capture_output=True, check=False).returncode == 0


def said(*words):
    try:
        return subprocess.run(words, capture_output=True, text=True, cwd=ROOT,
                              check=False).stdout.strip()
    except OSError:
        return ""


def versions():
    found = {}
    for name, package in PACKAGES.items():
        version = said("dpkg-query", "-W", "-f=${Version}", package)
        if version:
            found[name] = version
    return found


def cache_value(build, name):
    with open(os.path.join(build, "CMakeCache.txt"), encoding="utf-8") as cache:
        match = re.search(rf"^{name}:\w+=(.*)$", cache.read(), re.M)
    return match[1] if match else ""


def build_kind(build):
    flags = cache_value(build, "CMAKE_CXX_FLAGS")
    native = cache_value(build, "THINSPOT_NATIVE") in ("ON", "TRUE", "1")
    return "native" if native or "-march=native" in flags else "generic"


def machine(build):
    with open("/proc/cpuinfo", encoding="utf-8") as info:
        model = re.search(r"model name\s*: (.*)", info.read())
    with open("/proc/meminfo", encoding="utf-8") as info:
        kilobytes = int(re.search(r"MemTotal:\s*(\d+)", info.read())[1])
    commit = said("git", "rev-parse", "--short=9", "HEAD")
    if said("git", "status", "--porcelain", "--", ":!docs/performance.md"):
        commit += " with changes"
    return {"processor": model[1] if model else platform.machine(),
            "cores": os.cpu_count(), "memory_GB": round(kilobytes / 1e6, 1),
            "system": platform.freedesktop_os_release().get("PRETTY_NAME", ""),
            "compiler": said("c++", "-dumpfullversion"),
            "commit": commit or "unknown", "build": build_kind(build),
            "date": time.strftime("%Y-%m-%d", time.gmtime()),
            "versions": versions()}


def others_at_work(seconds=1.0):
    """Whether others use more than a twentieth of the processors just now."""
    def ticks():
        with open("/proc/stat", encoding="utf-8") as stat:
            times = [int(t) for t in stat.readline().split()[1:9]]
        return sum(times), times[3] + times[4]
    whole, idle = ticks()
    time.sleep(seconds)
    whole_now, idle_now = ticks()
    spent = max(1, whole_now - whole)
    return (idle_now - idle) / spent < 0.95
