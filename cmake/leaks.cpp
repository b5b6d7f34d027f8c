// SPDX-License-Identifier: GPL-3.0-or-later
// What the leak checker need not tell, in every program of a build with it: fontconfig keeps its patterns by offsets
// from one another, which the checker cannot follow, and x265 3.5 loses some kilobytes an encoder.

extern "C" {
const char* __lsan_default_suppressions();
const char* __lsan_default_options();

const char* __lsan_default_suppressions() { return "leak:libfontconfig\nleak:libx265"; }
const char* __lsan_default_options() { return "print_suppressions=0"; }
}
