"""Reads every feed of a folder by a reader and writes a JSON line a feed, as tests/readers/types.ts says."""

import json
import pathlib
import sys


def read_folder(read):
    """read: the bytes of a feed -> (problems, head, events)"""
    folder, output = sys.argv[1:3]
    with open(output, "w", encoding="utf-8") as lines:
        for path in sorted(pathlib.Path(folder).glob("*.ics")):
            try:
                problems, head, events = read(path.read_bytes())
            except Exception as error:  # a feed that cannot be read is an answer, not the end of the others
                problems, head, events = [repr(error)], {}, []
            lines.write(json.dumps({"feed": path.stem, "problems": problems, "head": head, "events": events}) + "\n")


def in_order(alarms):
    return sorted(alarms, key=lambda alarm: (alarm["at"], alarm["words"]))
