"""python-icalendar (Debian: python3-icalendar): what it understands of feeds, and every error it has noted.

With `own` as third word a zone's name is exchanged for one that no database knows, so that the feed's own definition is read.
"""

import datetime
import re
import sys

from icalendar import Calendar

from feed_folder import in_order, read_folder

OWN_ZONE = len(sys.argv) > 3 and sys.argv[3] == "own"


def when(prop):
    if prop is None:
        return None
    value = prop.dt
    if not isinstance(value, datetime.datetime):
        return value.isoformat()
    if value.tzinfo is None:
        raise ValueError("floating: " + value.isoformat())
    return int(value.timestamp())


def words(prop):
    return None if prop is None else str(prop)


def alarm_of(alarm, start, end):
    trigger = alarm["TRIGGER"].dt
    base = end if alarm["TRIGGER"].params.get("RELATED") == "END" else start
    # An elapsed length: pytz would count it on the wall clock.
    is_length = isinstance(trigger, datetime.timedelta)
    at = base.dt.astimezone(datetime.timezone.utc) + trigger if is_length else trigger
    return {"uid": str(alarm.get("UID", "")), "at": int(at.timestamp()), "words": str(alarm.get("DESCRIPTION", ""))}


def event_of(component):
    start, end = component.get("DTSTART"), component.get("DUE" if component.name == "VTODO" else "DTEND")
    alarms = [alarm for alarm in component.subcomponents if alarm.name == "VALARM"]
    return {
        "uid": str(component["UID"]),
        "start": when(start),
        "end": when(end),
        "summary": str(component.get("SUMMARY", "")),
        "description": str(component.get("DESCRIPTION", "")),
        "status": str(component.get("STATUS", "")),
        "sequence": int(component["SEQUENCE"]),
        "stamp": when(component["DTSTAMP"]),
        "alarms": in_order(alarm_of(alarm, start, end) for alarm in alarms),
    }


def read(data):
    if OWN_ZONE:
        data = re.sub(rb"TZID([=:])([A-Za-z_/]+)", rb"TZID\1Own-\2", data)
    calendar = Calendar.from_ical(data)
    components = calendar.walk()
    problems = ["%s: %s" % (component.name, error) for component in components for error in component.errors]
    head = {"name": words(calendar.get("NAME")), "about": words(calendar.get("DESCRIPTION"))}
    return problems, head, [event_of(component) for component in components if component.name in ("VEVENT", "VTODO")]


read_folder(read)
