"""Results between invocations, as JSON in the build folder."""

import json
import os


def load(path):
    try:
        with open(path, encoding="utf-8") as kept:
            return json.load(kept)
    except FileNotFoundError:
        return {"tasks": {}}
    except ValueError as wrong:
        raise SystemExit(f"{path} cannot be read ({wrong}): remove it, and all "
                         "is measured again") from wrong


def save(path, results):
    os.makedirs(os.path.dirname(path), exist_ok=True)
    with open(path + ".new", "w", encoding="utf-8") as kept:
        json.dump(results, kept, indent=1, sort_keys=True)
        kept.write("\n")
    os.replace(path + ".new", path)
