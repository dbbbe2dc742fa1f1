"""Runs a program and tells what it said and what it took."""

import os
import resource
import statistics
import subprocess
import tempfile
import time
from dataclasses import dataclass, field

# A program that wants more is told no; one that takes longer is ended.
ADDRESSES = 12 << 30
SECONDS = 600
ENDED = -9  # the status of such a one


@dataclass
class Run:
    wall: float = 0.0  # [s]
    cpu: float = 0.0  # [s], its own children among it
    memory: float = 0.0  # largest resident set of one process [bytes]
    figures: dict = field(default_factory=dict)
    spreads: dict = field(default_factory=dict)  # behind figures
    lists: dict = field(default_factory=dict)  # all numbers of other words
    why: str = ""  # it gave no answer; empty: it did

    def first(self, word):
        return self.lists.get(word, [0.0])[0]


def environment():
    # One thread: libraries of peers would fight for cores over small blocks.
    one = {name: "1" for name in
           ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "BLIS_NUM_THREADS")}
    return {**os.environ, **one, "PYTHONDONTWRITEBYTECODE": "1",
            "OMPI_ALLOW_RUN_AS_ROOT": "1",
            "OMPI_ALLOW_RUN_AS_ROOT_CONFIRM": "1"}


def limited():
    hard = resource.getrlimit(resource.RLIMIT_AS)[1]
    most = ADDRESSES if hard == resource.RLIM_INFINITY else min(ADDRESSES, hard)
    resource.setrlimit(resource.RLIMIT_AS, (most, hard))


def run(command, folder):
    """wait4 tells of one child and what it waited for, whatever ran before."""
    with tempfile.TemporaryFile("w+") as said, \
            tempfile.TemporaryFile("w+") as complained:
        start = time.perf_counter()
        child = subprocess.Popen(
            command, cwd=folder, stdin=subprocess.DEVNULL, stdout=said,
            stderr=complained, env=environment(), preexec_fn=limited,
            start_new_session=True)
        status, used = wait(child)
        result = Run(time.perf_counter() - start,
                     used.ru_utime + used.ru_stime, 1024 * used.ru_maxrss)
        said.seek(0)
        parse(said.read(), result)
        if status != 0:
            complained.seek(0)
            last = complained.read().strip().splitlines()[-1:] or \
                [f"ended with status {status}"]
            result.why = last[0][:120]
            # Others may end one by the same signal, for want of memory say.
            if child.returncode == ENDED and result.wall > SECONDS:
                result.why = f"none within {SECONDS} s"
        elif not result.figures and not result.lists:
            result.why = "said nothing"
    return result


def wait(child):
    deadline = time.monotonic() + SECONDS
    pause = 0.0005
    while True:
        pid, status, used = os.wait4(child.pid, os.WNOHANG)
        if pid:
            child.returncode = os.waitstatus_to_exitcode(status)
            return child.returncode, used
        if time.monotonic() > deadline:
            os.killpg(child.pid, 9)
            _, _, used = os.wait4(child.pid, 0)
            child.returncode = ENDED
            return ENDED, used
        time.sleep(pause)
        pause = min(2 * pause, 0.002)


def parse(text, result):
    for line in text.splitlines():
        words = line.split()
        try:
            if len(words) in (3, 4) and words[0] == "figure":
                result.figures[words[1]] = float(words[2])
                if len(words) == 4:
                    result.spreads[words[1]] = float(words[3])
            elif len(words) == 2:
                result.lists.setdefault(words[0], []).append(float(words[1]))
        except ValueError:
            pass  # talk of a library


def median(values):
    return statistics.median(values) if values else 0.0
