"""python-dateutil as a reader of rules: one JSON question a line in, one list of instances or an error a line out."""
import json
import signal
import sys
import warnings
from datetime import datetime
from itertools import takewhile

from dateutil.rrule import rrulestr

warnings.simplefilter("ignore")


def give_up(*_):
    raise TimeoutError("no answer in time")


# A rule that never occurs keeps this reader busy until the year 9999.
signal.signal(signal.SIGALRM, give_up)
FORMAT = "%Y%m%dT%H%M%S"
for line in sys.stdin:
    question = json.loads(line)
    start, end = (datetime.strptime(question[name], FORMAT) for name in ("start", "end"))
    try:
        signal.setitimer(signal.ITIMER_REAL, 0.5)
        rule = rrulestr(question["rule"], dtstart=start).replace(until=end)
        found = [each.strftime(FORMAT) for each in takewhile(lambda each: each < end, rule)]
        signal.setitimer(signal.ITIMER_REAL, 0)
        print(json.dumps({"found": found}), flush=True)
    except Exception as error:  # whatever it is, it is this reader's answer
        signal.setitimer(signal.ITIMER_REAL, 0)
        print(json.dumps({"fault": str(error)}), flush=True)
