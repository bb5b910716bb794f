"""Reads feed.xml and calendar.ics of a site with Debian's feedparser and icalendar, and prints what they understood."""
import json
import sys

import feedparser
import icalendar

site = sys.argv[1]
feed = feedparser.parse(site + "/feed.xml")
with open(site + "/calendar.ics", "rb") as file:
    calendar = icalendar.Calendar.from_ical(file.read())
events = [e for e in calendar.walk("VEVENT")]
json.dump({
    "version": feed.version,
    "fault": str(feed.get("bozo_exception", "")),
    "title": feed.feed.title,
    "id": feed.feed.id,
    "self": [link.href for link in feed.feed.links if link.rel == "self"],
    "entries": [{
        "id": e.id, "title": e.title, "link": e.link, "updated": list(e.updated_parsed[:3]),
        "text": e.content[0].value, "type": e.content[0].type,
    } for e in feed.entries],
    "product": str(calendar["PRODID"]),
    "faults": [str(fault) for e in events for fault in e.errors],
    "events": [{
        "uid": str(e["UID"]), "summary": str(e["SUMMARY"]), "description": str(e["DESCRIPTION"]),
        "from": e["DTSTART"].dt.isoformat(), "to": e["DTEND"].dt.isoformat(), "stamp": e["DTSTAMP"].dt.isoformat(),
    } for e in events],
}, sys.stdout)
