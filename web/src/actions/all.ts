// SPDX-License-Identifier: GPL-3.0-or-later
// Every file of acts, once. A room that brings acts of its own adds its file here.
import "./change";
import "./draw";
import "./general";
import "./look";
import "./opening";
import "./views";
