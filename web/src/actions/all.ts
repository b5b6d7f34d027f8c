// SPDX-License-Identifier: GPL-3.0-or-later
// Every file of acts, once. A room that brings acts of its own adds its file here.
import "./cables";
import "./change";
import "./draw";
import "./general";
import "./importing";
import "./lists";
import "./look";
import "./opening";
import "./papers";
import "./views";
