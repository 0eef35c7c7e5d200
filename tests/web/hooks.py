"""Leads cases into the depth: an invented place is known to nobody, and its job would be refused at the door."""

import schemathesis

PLACES = ["tamarrow", "osier", "merrin", "stonecroft", "tamarrow/brackwell", "City of Pellhaven", "halloway"]


def known(text):
    """A place of the library for any name that a schema permits; one in four stays unknown."""
    if not isinstance(text, str) or not 1 <= len(text) <= 4000:
        return text
    number = sum(text.encode("utf-8", "surrogatepass"))
    return text if number % 4 == 0 else PLACES[number % len(PLACES)]


@schemathesis.hook
def map_body(context, body):
    if isinstance(body, dict):
        for name in ("place", "against"):
            if name in body:
                body[name] = known(body[name])
    if isinstance(body, list):
        for row in body:
            map_body_of_row(row)
    return body


def map_body_of_row(row):
    if isinstance(row, dict) and "place" in row:
        row["place"] = known(row["place"])


@schemathesis.hook
def map_query(context, query):
    if isinstance(query, dict) and "place" in query:
        query["place"] = known(query["place"])
    return query


@schemathesis.serializer("application/x-ndjson")
def lines(context, value):
    """A text goes as it is. What is no text has no form on the line and is sent as bytes that are none."""
    if isinstance(value, bytes):
        return value
    return value.encode("utf-8", "surrogatepass") if isinstance(value, str) else b"\xff"
