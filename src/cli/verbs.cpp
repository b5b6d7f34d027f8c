// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/verbs.h"

#include "cli/options.h"

namespace sightfall::cli {
namespace {

using enum OptionKind;

constexpr std::string_view kDoneOrBad = "0 done, 2 bad input";

const Option kSite{"SITE", kFile, "SITE", "the site document, NAME.sightfall.json", {}, {}, {}, true};
const Option kInto{"--into", kFile, "SITE", "the site document to add to; it is made when it is not there",
                   {},       {},    {},     true};
const Option kJson{"--json", kFlag, "", "print the answer as JSON, the contract for scripts"};
const Option kWithin{"--within", kNumber, "M",    "only what lies within this distance of the site's origin",
                     1,          20000,   "20000"};
const Option kCrs{
    "--crs", kText, "NAME", "map projection of the file, such as EPSG:28992", {}, {}, "what the file says"};

Verb check() {
  return {"check",
          "Says which needs of a site are met, what holds each one back, and what small change would mend it",
          {kSite},
          {{"--need", kNames, "NAME", "judge this need alone; may be given again"},
           {"--when", kNames, "CONDITION", "judge in this condition alone; may be given again"},
           kJson,
           {"--maps", kFolder, "DIR",
            "draw a plan of delivered detail for each need or place into this folder (SVG and PNG)"},
           {"--no-remedies", kFlag, "", "do not look for remedies, which is most of the work"}},
          "check demo/alder_lane.sightfall.json --maps build/demo",
          "0 every need met, 1 some need missed or marginal, or stopped, 2 bad input",
          run_check};
}

Verb card() {
  return {
      "card",
      "Says what one camera delivers at each distance by day and by night, and which of its sheet's claims hold",
      {{"SHEET", kFile, "SHEET", "a sheet, such as data/sheets/NAME.json; not needed with --pixels"}},
      {{"--focal", kNumber, "MM", "focal length", 0.1, 5000, "the sheet's short end"},
       {"--height", kNumber, "M", "height of the mount; distances then run along the ground", 0, 60,
        "the plane is normal to the axis"},
       {"--tilt", kNumber, "DEG", "below the horizon, with --height", -90, 90,
        "the horizon lies on the picture's upper edge"},
       {"--focus", kNumber, "M", "distance the lens is focused at", 0.01, 1e5, "hyperfocal for a blur of two pixels"},
       {"--shutter", kNumber, "S", "exposure time in seconds", 1e-7, 60, "1/200 s within the sheet's limits"},
       {"--marks", kNumbers, "M,M,...", "distances to tell of", 0.1, 2000, "2 to 150 m"},
       {"--table", kText, "NAME", "level table, 2025 or 2014", {}, {}, "2025"},
       kJson,
       {"--picture", kFolder, "DIR", "draw detail against distance into this folder (SVG and PNG)"},
       {"--seen", kFile, "FILE", "observations of the camera, which narrow what its sheet leaves open"},
       {"--save", kFile, "FILE", "with --seen: writes the sheet with what was narrowed"},
       {"--pixels", kText, "WxH", "without a sheet: pixels across and down, such as 3840x2160"},
       {"--view", kNumber, "DEG", "without a sheet: horizontal angle of view", 0.1, 360},
       {"--f-number", kNumber, "N", "without a sheet: f-number", 0.5, 64, "1.6, 1.4 to 2"},
       {"--format", kText, "INCH", "without a sheet: nominal optical format, such as 1/2.5"},
       {"--infrared-reach", kNumber, "M", "without a sheet: reach of the infrared as claimed", 0, 5000}},
      "card --pixels 3840x2160 --focal 12 --view 23",
      kDoneOrBad,
      run_card};
}

Verb walk() {
  return {"walk",
          "Shows what a camera will see of somebody who passes: a picture at each mark, a contact sheet, the figures",
          {{"SITE", kFile, "SITE", "the site document; not needed with --open-ground"},
           {"ROUTE", kText, "ROUTE", "name of a route or line of the site; not needed when it has one"}},
          {{"--camera", kText, "NAME", "the camera; not needed when there is one"},
           {"--when", kText, "CONDITION", "the condition; on open ground day or night"},
           {"--out", kFolder, "DIR", "writes into this folder", {}, {}, {}, true},
           {"--marks", kNumbers, "M,M,...", "distances from the mount to tell of, along the ground", 0.1, 2000,
            "six, from where it is first seen to where it is last seen"},
           {"--subject",
            kText,
            "NAME",
            "walker, car or target",
            {},
            {},
            "a car where a need of the route asks for plates or vehicles, else a walker"},
           {"--clip", kFlag, "",
            "writes the whole walk as MP4 at the camera's frame rate, through its stream and free of it"},
           {"--crop", kFlag, "", "writes the piece around face, plate or target as a picture of its own, too"},
           {"--seed", kNumber, "N", "of the noise and of the plate's characters", 0, 1e9, "1"},
           kJson,
           {"--open-ground", kFile, "SHEET", "without a site: a sheet's camera over flat open ground"},
           {"--height", kNumber, "M", "of its mount, with --open-ground", 0.1, 60, "1.6, level with a face"},
           {"--tilt", kNumber, "DEG", "below the horizon, with --open-ground", -90, 90,
            "level, or with --height the horizon on the picture's upper edge"},
           {"--focal", kNumber, "MM", "focal length, with --open-ground", 0.1, 5000, "the sheet's short end"},
           {"--focus", kNumber, "M", "distance the lens is focused at, with --open-ground", 0.01, 1e5,
            "hyperfocal for a blur of two pixels"}},
          "walk --open-ground data/sheets/NAME.json --when night --out build/walk",
          "0 done, 1 stopped on the way, 2 bad input",
          run_walk};
}

Verb loads() {
  return {"loads",
          "Says what the cameras ask of power, cable, network, storage and fixings, what these carry, and what is "
          "overlooked",
          {kSite},
          {kJson,
           {"--no-masks", kFlag, "", "do not work out what masks cost the needs, which is most of the work"},
           {"--measured",
            kNames,
            "FILE",
            "the marks.json of `walk --clip`, whose rate stands in for that camera's forecast by day or by night; may "
            "be given again",
            {},
            {},
            "rates are forecast"}},
          "loads demo/alder_lane.sightfall.json",
          "0 everything is carried, 1 something is missed, marginal or unknown, or stopped, 2 bad input",
          run_loads};
}

Verb papers() {
  return {
      "papers",
      "Writes what is handed over: report, summary, settings, field sheet, plan, schedules (PDF, SVG, DXF, XLSX, CSV)",
      {kSite},
      {{"--out", kFolder, "DIR", "the folder to write into", {}, {}, {}, true},
       {"--date", kText, "YYYY-MM-DD", "date on the papers", {}, {}, "a line to write it on"},
       {"--by", kText, "NAME", "who hands over", {}, {}, "a line to write it on"},
       {"--paper", kText, "SIZE", "a4 or letter; plans are on A3 or tabloid", {}, {}, "a4"},
       {"--network", kText, "NET", "the cameras' own network, such as 10.20.30.0/24", {}, {}, "192.168.50.0/24"},
       {"--against", kFile, "SITE", "another site document: the options A and B side by side"},
       {"--no-pictures", kFlag, "", "without pictures of what cameras will show"},
       {"--no-masks", kFlag, "", "do not work out what masks cost the needs, which is most of the work"}},
      "papers demo/alder_lane.sightfall.json --out build/papers --date 2026-11-27",
      "0 done, 1 stopped: the papers tell what had been worked out, 2 bad input",
      run_papers};
}

Verb import_footprints() {
  return {"import footprints",
          "Adds building outlines with their heights from a map (GeoJSON, GeoPackage, Shapefile, OpenStreetMap)",
          {{"FILE", kFile, "FILE", "the map", {}, {}, {}, true}},
          {kInto,
           {"--height", kNumber, "M", "height of buildings whose height the map does not state", 0.1, 1000,
            "such buildings are an error"},
           {"--height-field", kText, "NAME", "attribute that holds the height", {}, {}, "the usual ones are tried"},
           {"--base-field",
            kText,
            "NAME",
            "attribute that holds the height of the foot above the map's datum",
            {},
            {},
            "buildings stand on the ground"},
           {"--layer", kText, "NAME", "layer of a file with several"},
           kCrs,
           kWithin},
          "import footprints town.geojson --into NAME.sightfall.json --height 6",
          kDoneOrBad,
          run_import_footprints};
}

Verb import_terrain() {
  return {"import terrain",
          "Takes a height raster as the site's ground",
          {{"FILE", kFile, "FILE", "the raster", {}, {}, {}, true}},
          {kInto,
           {"--step", kNumber, "M", "between neighbouring heights", 0.05, 10000, "the raster's own"},
           {"--fill", kNumber, "M", "height of cells without one, such as 0 for the sea", -500, 9000,
            "such cells are an error"},
           kCrs,
           kWithin},
          "import terrain hills.tif --into NAME.sightfall.json --within 300",
          kDoneOrBad,
          run_import_terrain};
}

Verb serve() {
  return {
      "serve",
      "Opens the workbench: the same job in a browser, on this machine or, once paired, on others",
      {{"SITE", kFile, "SITE",
        "the site document; the page asks when it is not given. Edits are kept beside it, in NAME.sightfall.history: "
        "the newest 2000, as far as 64 MiB go"}},
      {{"--port", kNumber, "N", "listens at this port; 0 takes any that is free", 0, 65535, "8246"},
       {"--listen",
        kText,
        "ADDRESS",
        "listens at this address of the machine too, such as 192.168.1.20; every browser then pairs with a code",
        {},
        {},
        "this machine alone"},
       {"--host", kNames, "NAME", "with --listen: a name that browsers may call this machine by; may be given again"}},
      "serve demo/alder_lane.sightfall.json",
      "0 ended by an interrupt, 2 bad input, the port is in use, or the document could not be written: its history has "
      "the edits",
      run_serve};
}

Verb completion() {
  return {"completion",
          "Prints what makes the shell complete verbs and options: source <(sightfall completion bash)",
          {{"SHELL", kText, "SHELL", "the shell: bash", {}, {}, {}, true}},
          {},
          "completion bash",
          kDoneOrBad,
          run_completion};
}

}  // namespace

const std::vector<Verb>& verbs() {
  static const std::vector<Verb> kAll{check(),          card(),  walk(),      loads(), papers(), import_footprints(),
                                      import_terrain(), serve(), completion()};
  return kAll;
}

}  // namespace sightfall::cli
