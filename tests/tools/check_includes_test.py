#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""tools/check_includes on tiny trees: each rule catches its own violation, and allowed includes pass."""
import pathlib
import subprocess
import tempfile
import unittest

TOOL = pathlib.Path(__file__).resolve().parents[2] / "tools" / "check_includes"


def check(files):
    """The tool's exit status and text for a tree of {path: text}."""
    with tempfile.TemporaryDirectory() as folder:
        for path, text in files.items():
            file = pathlib.Path(folder) / path
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(text, encoding="utf-8")
        run = subprocess.run([TOOL, folder], capture_output=True, text=True, check=False)
    return run.returncode, run.stdout


class CheckIncludes(unittest.TestCase):
    def allowed(self, path, include):
        self.assertEqual(check({path: f"#include {include}\n"})[0], 0, f"{include} in {path}")

    def forbidden(self, path, include, said):
        status, text = check({path: f"// a line\n#include {include}\n"})
        self.assertEqual(status, 1, f"{include} in {path}")
        self.assertIn(f"{path}:2: ", text)
        self.assertIn(said, text)

    def test_data_flows_downward(self):
        self.allowed("src/need/check.cpp", '"site/scene.h"')
        self.allowed("src/site/scene.h", '"site/site.h"')
        self.forbidden("src/site/scene.cpp", '"need/check.h"', "not need")
        self.forbidden("src/camera/lens.h", '"site/site.h"', "not site")
        self.forbidden("src/geom/mesh.h", '"detail/limit.h"', "not detail")
        self.forbidden("src/card/card.cpp", '"draw/plan.h"', "not draw")

    def test_one_room_owns_each_library(self):
        self.allowed("src/site/scene.cpp", "<embree3/rtcore.h>")
        self.forbidden("src/need/check.cpp", "<embree3/rtcore.h>", "only site")
        self.forbidden("src/site/site.cpp", "<geos_c.h>", "only geom")
        self.forbidden("src/file/read.cpp", "<gdal_priv.h>", "only import")
        self.forbidden("src/cli/main.cpp", "<nlohmann/json.hpp>", "only file")
        self.forbidden("src/card/card.cpp", "<cairo.h>", "only draw")

    def test_no_library_in_a_header(self):
        self.allowed("src/base/result.h", "<tl/expected.hpp>")
        self.allowed("src/need/words.cpp", "<fmt/format.h>")
        self.forbidden("src/site/scene.h", "<embree3/rtcore.h>", "in a .cpp")
        self.forbidden("src/need/words.h", "<fmt/format.h>", "in a .cpp")

    def test_only_the_edge_meets_the_world(self):
        self.allowed("src/file/read.cpp", "<fstream>")
        self.allowed("src/file/atomic.cpp", "<sys/stat.h>")
        self.allowed("src/need/check_test.cpp", "<chrono>")
        self.allowed("src/import/test_files.cpp", "<unistd.h>")
        self.forbidden("src/need/check.cpp", "<chrono>", "the middle is pure")
        self.forbidden("src/file/read.cpp", "<iostream>", "only cli")

    def test_test_framework_stays_in_tests(self):
        self.allowed("src/geom/mesh_test.cpp", "<gtest/gtest.h>")
        self.forbidden("src/geom/mesh.cpp", "<gtest/gtest.h>", "in tests")

    def test_what_is_in_no_table_is_refused(self):
        self.forbidden("src/geom/mesh.cpp", "<somebody/else.h>", "in no table")
        self.forbidden("src/geom/mesh.cpp", '"mesh.h"', "by room")
        status, text = check({"src/attic/old.cpp": ""})
        self.assertEqual(status, 1)
        self.assertIn("attic is not a room", text)

    def test_every_fault_is_told(self):
        _, text = check({"src/unit/a.h": '#include "geom/vec.h"\n', "src/base/b.cpp": '#include "unit/a.h"\n'})
        self.assertIn("src/unit/a.h:1", text)
        self.assertIn("src/base/b.cpp:1", text)


if __name__ == "__main__":
    unittest.main()
