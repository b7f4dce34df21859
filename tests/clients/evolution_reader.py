"""Evolution's own calendar service, asked over D-Bus what it keeps of a subscribed calendar: one JSON line a look.

The first argument is the source's name. Each line of standard input asks for a refresh before the next look.
Needs gir1.2-ecal-2.0 and python3-gi; starts nothing itself: run it under dbus-run-session.
"""

import json
import sys

import gi

gi.require_version("ECal", "2.0")
gi.require_version("EDataServer", "1.2")
gi.require_version("ICalGLib", "3.0")
from gi.repository import ECal, EDataServer, GLib, ICalGLib  # noqa: E402


def wait(seconds):
    loop = GLib.MainLoop()
    GLib.timeout_add(int(seconds * 1000), loop.quit)
    loop.run()


def moment(client, component, kind, time):
    if time.is_date():
        return f"{time.get_year():04}-{time.get_month():02}-{time.get_day():02}"
    parameter = component.get_first_property(kind).get_first_parameter(ICalGLib.ParameterKind.TZID_PARAMETER)
    zone = ICalGLib.Timezone.get_utc_timezone()
    if parameter is not None:
        zone = client.get_timezone_sync(parameter.get_tzid(), None)[1]
    seconds = time.as_timet_with_zone(zone)
    return GLib.DateTime.new_from_unix_utc(seconds).format("%Y-%m-%dT%H:%M:%SZ")


STATUS = {
    ICalGLib.PropertyStatus.CONFIRMED: "CONFIRMED",
    ICalGLib.PropertyStatus.CANCELLED: "CANCELLED",
}


def look(client):
    _, components = client.get_object_list_sync("#t", None)
    rows = [
        {
            "uid": each.get_uid(),
            "start": moment(client, each, ICalGLib.PropertyKind.DTSTART_PROPERTY, each.get_dtstart()),
            "end": moment(client, each, ICalGLib.PropertyKind.DTEND_PROPERTY, each.get_dtend()),
            "title": each.get_summary(),
            "status": STATUS.get(each.get_status(), "other"),
        }
        for each in components
    ]
    print(json.dumps(sorted(rows, key=lambda row: row["uid"])), flush=True)


registry = EDataServer.SourceRegistry.new_sync(None)
client = ECal.Client.connect_sync(registry.ref_source(sys.argv[1]), ECal.ClientSourceType.EVENTS, 20, None)
wait(4)
look(client)
for _ in sys.stdin:
    client.refresh_sync(None)
    wait(4)
    look(client)
