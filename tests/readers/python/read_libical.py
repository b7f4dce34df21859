"""libical through GObject introspection (Debian: gir1.2-ical-3.0, python3-gi): what GNOME's calendar and Evolution read.

Its problems: errors that the parser has written into the components, and what breaks the restrictions of RFC 5546.
"""

import gi

gi.require_version("ICalGLib", "3.0")
from gi.repository import ICalGLib  # noqa: E402

from feed_folder import in_order, read_folder  # noqa: E402

UTC = ICalGLib.Timezone.get_utc_timezone()


def when(time):
    if time is None or time.is_null_time():
        return None
    if time.is_date():
        return "%04d-%02d-%02d" % (time.get_year(), time.get_month(), time.get_day())
    zone = UTC if time.is_utc() else time.get_timezone()
    if zone is None:
        raise ValueError("floating: " + time.as_ical_string())
    return time.as_timet_with_zone(zone)


def components_of(parent, kind):
    found = []
    component = parent.get_first_component(kind)
    while component is not None:
        found.append(component)
        component = parent.get_next_component(kind)
    return found


def errors_in(component):
    """The texts of X-LIC-ERROR, which stand where a line was not understood."""
    found = []
    error = component.get_first_property(ICalGLib.PropertyKind.XLICERROR_PROPERTY)
    while error is not None:
        found.append(error.as_ical_string())
        error = component.get_next_property(ICalGLib.PropertyKind.XLICERROR_PROPERTY)
    for child in components_of(component, ICalGLib.ComponentKind.ANY_COMPONENT):
        found += errors_in(child)
    return found


def uid_of(component):
    return component.get_uid() or ""


def alarm_of(alarm, start, end):
    line = alarm.get_first_property(ICalGLib.PropertyKind.TRIGGER_PROPERTY)
    related = line.get_first_parameter(ICalGLib.ParameterKind.RELATED_PARAMETER)
    base = end if related is not None and related.get_related() == ICalGLib.ParameterRelated.END else start
    trigger = line.get_trigger()
    at = trigger.get_time()
    moment = base + trigger.get_duration().as_int() if at.is_null_time() else when(at)
    return {"uid": uid_of(alarm), "at": moment, "words": alarm.get_description() or ""}


STATUSES = {
    ICalGLib.PropertyStatus.CONFIRMED: "CONFIRMED",
    ICalGLib.PropertyStatus.CANCELLED: "CANCELLED",
    ICalGLib.PropertyStatus.NEEDSACTION: "NEEDS-ACTION",
    ICalGLib.PropertyStatus.COMPLETED: "COMPLETED",
}


def event_of(component):
    is_task = component.isa() == ICalGLib.ComponentKind.VTODO_COMPONENT
    start, end = when(component.get_dtstart()), when(component.get_due() if is_task else component.get_dtend())
    alarms = components_of(component, ICalGLib.ComponentKind.VALARM_COMPONENT)
    return {
        "uid": component.get_uid(),
        "start": start,
        "end": end,
        "summary": component.get_summary() or "",
        "description": component.get_description() or "",
        "status": STATUSES.get(component.get_status(), ""),
        "sequence": component.get_sequence(),
        "stamp": when(component.get_dtstamp()),
        "alarms": in_order(alarm_of(alarm, start, end) for alarm in alarms),
    }


def read(data):
    calendar = ICalGLib.Component.new_from_string(data.decode("utf-8"))
    if calendar is None:
        raise ValueError("not a calendar")
    problems = errors_in(calendar)
    if calendar.count_errors() != len(problems):
        problems.append("%d errors counted" % calendar.count_errors())
    if not ICalGLib.restriction_check(calendar):
        problems += errors_in(calendar) or ["breaks a restriction"]
    kinds = (ICalGLib.ComponentKind.VEVENT_COMPONENT, ICalGLib.ComponentKind.VTODO_COMPONENT)
    name = calendar.get_first_property(ICalGLib.PropertyKind.NAME_PROPERTY)
    about = calendar.get_first_property(ICalGLib.PropertyKind.DESCRIPTION_PROPERTY)
    head = {"name": name and name.get_name(), "about": about and about.get_description()}
    return problems, head, [event_of(component) for kind in kinds for component in components_of(calendar, kind)]


read_folder(read)
