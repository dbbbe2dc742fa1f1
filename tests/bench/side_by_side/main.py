"""Side by side with general-purpose programs; tests/bench/compare calls it."""

import argparse
import os
import sys

import judging
import keeping
import page
import programs
import tasks
from measuring import Measuring
from running import run


def say(text):
    print(text, file=sys.stderr, flush=True)


def count(text):
    number = int(text)
    if number < 1:
        raise argparse.ArgumentTypeError("at least 1")
    return number


def task_number(text):
    number = int(text)
    if not any(t.number == number for t in tasks.TASKS):
        raise argparse.ArgumentTypeError(f"1 to {len(tasks.TASKS)}")
    return number


def options(words):
    parser = argparse.ArgumentParser(prog="tests/bench/compare")
    parser.add_argument("--build", required=True, help="folder of our build")
    parser.add_argument("--task", type=task_number, action="append",
                        help="only this one; several times for several")
    parser.add_argument("--runs", type=count, default=7,
                        help="of each program, for the median (7)")
    parser.add_argument("--page", help="write the page of all kept results there")
    parser.add_argument("--anew", action="store_true",
                        help="measure what is kept already once more")
    return parser.parse_args(words)


def machine_of(build):
    machine = programs.machine(build)
    best = run([os.path.join(build, "tests/bench/machine_floor")], build)
    if best.why:
        raise SystemExit(f"machine_floor: {best.why}")
    return machine | {word: values[0] for word, values in best.lists.items()
                      if word != "cores"}


def tell(task, result):
    """Medians and ratios."""
    print(page.TABLES[task.judge](result["rows"]))
    print(judging.verdict(task, result["rows"]))
    print(page.floor_words(result, result["machine"]), flush=True)


def main(words):
    asked = options(words)
    if asked.page and not os.access(os.path.dirname(asked.page) or ".", os.W_OK):
        sys.exit(f"tests/bench/compare: {asked.page} cannot be written")
    kept_at = os.path.join(asked.build, "compare", "results.json")
    results = keeping.load(kept_at)
    wanted = [tasks.task(n) for n in asked.task] if asked.task else tasks.TASKS
    measuring = Measuring(asked.build, asked.runs, say)
    try:
        for task in wanted:
            key = str(task.number)
            if asked.anew or key not in results["tasks"]:
                busy = programs.others_at_work()
                machine = machine_of(asked.build)
                result = measuring.task(task)
                busy = busy or programs.others_at_work()
                results = keeping.load(kept_at)  # another may have added to it
                results["tasks"][key] = result | {
                    "busy": busy, "runs": asked.runs, "machine": machine}
                keeping.save(kept_at, results)
            else:
                say(f"task {key}: kept from before; --anew measures it again")
            tell(task, results["tasks"][key])
    finally:
        measuring.close()
    if asked.page:
        with open(asked.page, "w", encoding="utf-8") as out:
            out.write(page.page(results))
        say(f"{asked.page} is written.")


if __name__ == "__main__":
    main(sys.argv[1:])
