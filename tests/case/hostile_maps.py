#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Maps that name a server: neither `sightfall import` nor the workbench ever calls it.

Usage: hostile_maps.py SIGHTFALL
  A server of ours listens on this machine and counts who calls. GDAL alone would: the first map makes it fetch its
  `crs`. Each map is imported by the command line and sent to the workbench; what cannot be read is refused with a
  sentence, and nobody has called.
"""
import http.client
import json
import pathlib
import re
import socket
import sqlite3
import struct
import subprocess
import sys
import tempfile
import threading
import urllib.parse

PATIENCE = 120  # seconds
SITE = "a.sightfall.json"
EMPTY = {"sightfall": 1, "name": "a", "site": {}, "conditions": [{"name": "day", "leaves": "on"}]}
RING = [[2.5, 53.5], [2.5002, 53.5], [2.5002, 53.5001], [2.5, 53.5001], [2.5, 53.5]]


def hold(promise, text):
    if not promise:
        raise AssertionError(text)


class Called:
    """Listens, and keeps what each caller says first."""

    def __init__(self):
        self.socket = socket.create_server(("127.0.0.1", 0))
        self.url = f"http://127.0.0.1:{self.socket.getsockname()[1]}"
        self.heard = []
        threading.Thread(target=self.listen, daemon=True).start()

    def listen(self):
        while True:
            caller, _ = self.socket.accept()
            self.heard.append(caller.recv(200))
            caller.sendall(b"HTTP/1.0 404 none\r\nContent-Length: 0\r\n\r\n")
            caller.close()


def geojson(crs=None):
    town = {"type": "FeatureCollection", "features": [
        {"type": "Feature", "properties": {"height": 5}, "geometry": {"type": "Polygon", "coordinates": [RING]}}]}
    if crs:
        town["crs"] = crs
    return json.dumps(town).encode()


def geopackage(folder, height):
    """A view that works out its heights by a function of the library's."""
    path = folder / "made.gpkg"
    path.unlink(missing_ok=True)
    base = sqlite3.connect(path)
    base.executescript("""
        PRAGMA application_id = 1196444487; PRAGMA user_version = 10300;
        CREATE TABLE gpkg_spatial_ref_sys(srs_name TEXT NOT NULL, srs_id INTEGER NOT NULL PRIMARY KEY,
          organization TEXT NOT NULL, organization_coordsys_id INTEGER NOT NULL, definition TEXT NOT NULL, description TEXT);
        INSERT INTO gpkg_spatial_ref_sys VALUES('WGS 84', 4326, 'EPSG', 4326, 'GEOGCS["WGS 84",DATUM["WGS_1984",' ||
          'SPHEROID["WGS 84",6378137,298.257223563]],PRIMEM["Greenwich",0],UNIT["degree",0.0174532925199433]]', NULL),
          ('cartesian', -1, 'NONE', -1, 'undefined', NULL), ('geographic', 0, 'NONE', 0, 'undefined', NULL);
        CREATE TABLE gpkg_contents(table_name TEXT NOT NULL PRIMARY KEY, data_type TEXT NOT NULL, identifier TEXT UNIQUE,
          description TEXT DEFAULT '', last_change DATETIME, min_x DOUBLE, min_y DOUBLE, max_x DOUBLE, max_y DOUBLE,
          srs_id INTEGER);
        CREATE TABLE gpkg_geometry_columns(table_name TEXT NOT NULL, column_name TEXT NOT NULL,
          geometry_type_name TEXT NOT NULL, srs_id INTEGER NOT NULL, z TINYINT NOT NULL, m TINYINT NOT NULL);
        CREATE TABLE t(fid INTEGER PRIMARY KEY, geom BLOB);
        INSERT INTO gpkg_contents VALUES('v', 'features', 'v', '', '2020-01-01T00:00:00Z', 2, 53, 3, 54, 4326);
        INSERT INTO gpkg_geometry_columns VALUES('v', 'geom', 'POLYGON', 4326, 0, 0);""")
    wkb = struct.pack("<BIII", 1, 3, 1, len(RING)) + b"".join(struct.pack("<dd", *point) for point in RING)
    base.execute("INSERT INTO t VALUES(1, ?)", (b"GP\0\1" + struct.pack("<i", 4326) + wkb,))
    base.execute(f"CREATE VIEW v AS SELECT fid, geom, {height} AS height FROM t")
    base.commit()
    base.close()
    return path.read_bytes()


def geotiff(overviews):
    """64 x 64 cells of 20 m, in zone 31 north, with a list of further files in its own notes."""
    notes = (f'<GDALMetadata><Item name="OVERVIEW_FILE" domain="OVERVIEWS">{overviews}</Item></GDALMetadata>\0').encode()
    side, heights = 64, struct.pack("<f", 20) * 64 * 64
    keys = struct.pack("<16H", 1, 1, 0, 3, 1024, 0, 1, 1, 1025, 0, 1, 1, 3072, 0, 1, 32631)
    after = {33550: (12, struct.pack("<3d", 1, 1, 0)), 33922: (12, struct.pack("<6d", 0, 0, 0, 467000, 5928000, 0)),
             34735: (3, keys), 42112: (2, notes)}
    short = {256: side, 257: side, 258: 32, 259: 1, 262: 1, 277: 1, 278: side, 339: 3}
    tags = sorted({*short, *after, 273, 279})
    at = 8 + 2 + 12 * len(tags) + 4
    entries, tail = b"", b""
    for tag in tags:
        if tag in short:
            entries += struct.pack("<HHIHH", tag, 3, 1, short[tag], 0)
        elif tag in after:
            kind, data = after[tag]
            entries += struct.pack("<HHII", tag, kind, len(data) // {12: 8, 3: 2, 2: 1}[kind], at + len(tail))
            tail += data + b"\0" * (len(data) % 2)
        else:
            entries += struct.pack("<HHII", tag, 4, 1, len(heights) if tag == 279 else 0xDEADBEEF)
    entries = entries.replace(struct.pack("<I", 0xDEADBEEF), struct.pack("<I", at + len(tail)))
    return b"II*\0" + struct.pack("<I", 8) + struct.pack("<H", len(tags)) + entries + b"\0\0\0\0" + tail + heights


def osm(entity, use):
    corners = "".join(f'<node id="{i + 1}" lon="{x}" lat="{y}" version="1"/>' for i, (x, y) in enumerate(RING[:4]))
    return (f'<?xml version="1.0"?><!DOCTYPE osm [{entity}]><osm version="0.6">{corners}<way id="9" version="1">'
            + "".join(f'<nd ref="{i}"/>' for i in (1, 2, 3, 4, 1))
            + f'<tag k="building" v="yes"/><tag k="height" v="{use}"/></way></osm>').encode()


def maps(url, folder):
    """Verb, name, bytes, and whether it is read: a `crs` that nobody answers for leaves GeoJSON its own, WGS84."""
    yield "footprints", "link.geojson", geojson(
        {"type": "link", "properties": {"href": f"{url}/crs", "type": "ogcwkt"}}), True
    yield "footprints", "url.geojson", geojson({"type": "url", "properties": {"url": f"{url}/crs"}}), True
    yield "footprints", "name.geojson", geojson({"type": "name", "properties": {"name": f"{url}/crs"}}), True
    yield "footprints", "plain.geojson", geojson(), True
    yield "footprints", "view.gpkg", geopackage(folder, f"ogr_geocode('{url}')"), False
    yield "footprints", "raster.gpkg", geopackage(
        folder, f"gdal_get_pixel_value('/vsicurl/{url}/a.tif', 1, 'pixel', 0, 0)"), False
    yield "footprints", "code.gpkg", geopackage(folder, "load_extension('/tmp/code.so')"), False
    yield "footprints", "plain.gpkg", geopackage(folder, "7"), True
    yield "footprints", "entity.osm", osm(f'<!ENTITY x SYSTEM "{url}/x">', "&x;"), False
    laughs = '<!ENTITY a "ha">' + "".join(f'<!ENTITY {chr(98 + i)} "{("&" + chr(97 + i) + ";") * 10}">' for i in range(12))
    yield "footprints", "laughs.osm", osm(laughs, "&m;"), False
    yield "footprints", "plain.osm", osm("", "5"), True
    yield "terrain", "overviews.tif", geotiff(f"/vsicurl/{url}/a.ovr"), True
    yield "terrain", "virtual.tif", (
        '<VRTDataset rasterXSize="64" rasterYSize="64"><VRTRasterBand dataType="Float32" band="1"><SimpleSource>'
        f"<SourceFilename>/vsicurl/{url}/a.tif</SourceFilename></SimpleSource></VRTRasterBand></VRTDataset>").encode(), False
    yield "terrain", "coverage.tif", f"<WCS_GDAL><ServiceURL>{url}/</ServiceURL></WCS_GDAL>".encode(), False


def by_command(program, folder, verb, name):
    (folder / SITE).write_text(json.dumps(EMPTY), encoding="utf-8")
    done = subprocess.run([program, "import", verb, name, "--into", SITE], cwd=folder, timeout=PATIENCE,
                          capture_output=True, text=True, check=False)
    return done.returncode == 0, done.stdout + done.stderr


def by_page(port, verb, name, data):
    where = f"/api/import/{verb}?" + urllib.parse.urlencode({"name": name, "words": "import"})
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=PATIENCE)
    connection.request("POST", where, data, {"X-Sightfall-Tab": "test"})
    answer = connection.getresponse()
    text = answer.read().decode()
    hold(answer.status in (200, 400), f"{name}: status {answer.status}: {text}")
    if answer.status == 200:
        connection.request("POST", "/api/undo", "{}", {"X-Sightfall-Tab": "test"})
        hold(connection.getresponse().read() and True, "undo was answered")
    return answer.status == 200, text


def main(program):
    program = str(pathlib.Path(program).resolve())
    called = Called()
    with socket.create_connection(("127.0.0.1", called.socket.getsockname()[1])) as first:
        first.sendall(b"to see that it listens")
        first.recv(10)
    hold(len(called.heard) == 1, "the listener does not listen")
    with tempfile.TemporaryDirectory() as made:
        folder = pathlib.Path(made)
        (folder / "served").mkdir()
        (folder / "served" / SITE).write_text(json.dumps(EMPTY), encoding="utf-8")
        with subprocess.Popen([program, "serve", SITE, "--port", "0"], cwd=folder / "served", text=True,
                              stdout=subprocess.PIPE) as server:
            try:
                told = ""
                while not (port := re.search(r"http://localhost:(\d+)", told)):
                    told += server.stdout.readline()
                for verb, name, data, right in maps(called.url, folder):
                    (folder / name).write_bytes(data)
                    for way, (done, said) in {"command": by_command(program, folder, verb, name),
                                              "page": by_page(int(port[1]), verb, name, data)}.items():
                        print(f"{name} by {way}: {'taken' if done else said.strip()}")
                        hold(done == right, f"{name} by {way}: {said}")
                        hold(len(called.heard) == 1, f"{name} by {way} called: {called.heard[1:]}")
            finally:
                server.terminate()
    print("nobody called")


if __name__ == "__main__":
    main(sys.argv[1])
