// SPDX-License-Identifier: GPL-3.0-or-later
// How long recordings are kept.
//   Model    usable = disks after redundancy x the share that recordings get; a day = sum over cameras of the mean of
//            day and night rate x the share of the day that is recorded; days = usable / a day, cut to the law's cap.
//            Of what is not recorded always it is not known when: from all of it by the light that sends less to all of
//            it by the one that sends more.
//            A card alone is to keep the days wanted, one beside a recorder kCardBeside; either is to live kCardLife
//   Limits   half of the hours are taken as dark; what a recorder keeps beside pictures is in `disk_share`; a rebuild
//            is as fast as kRebuild, the recorder may be slower while it records
//   Source   SNIA dictionary for RAID capacities; a terabyte is 1000^4 bytes, a tebibyte 1024^4
//   Checked  storage_test.cpp
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "loads/network.h"

namespace sightfall::loads {

/// How fast a disk is rebuilt, bytes a second: from memory.
inline constexpr Ranged<double> kRebuild{40e6, 100e6, 180e6};
/// What a card beside a recorder is to bridge, and the least that a card is to live: common practice, no published
/// source.
inline constexpr Time kCardBeside{86400}, kCardLife{365.25 * 86400};
inline constexpr DataSize kTebibyte{8.0 * 1024 * 1024 * 1024 * 1024};

/// What disks hold after redundancy; and how many may fail at least.
DataSize capacity_of(const site::Disks& disks);
int may_fail(site::Redundancy redundancy);
/// The least number of disks for a redundancy.
int least_disks(site::Redundancy redundancy);

/// What a camera records in a day.
Ranged<DataSize> a_day_of(const need::Project& project, const StreamRate& rate);

struct RecorderStorage {
  std::string recorder;
  std::vector<std::string> cameras;
  Held held = Held::kMet;  ///< of the days wanted, and of what it lacks
  std::string lacks;       ///< why no days are told of it; empty: they are
  std::string remedy;      ///< of what it lacks
  DataSize raw, usable;    ///< of all disks; after redundancy, nominally for recordings
  int may_fail = 0;        ///< disks, without a loss
  Ranged<DataSize> a_day;
  Ranged<Time> kept;                    ///< as the disks allow
  Ranged<Time> told;                    ///< cut to the law's cap
  Time wanted_for{0};                   ///< zero: no days are wanted
  Bearing<DataSize> wanted;             ///< disk for the days wanted, beside what there is
  Ranged<DataSize> raw_wanted;          ///< to buy for the days wanted, redundancy included
  Ranged<Time> kept_doubled;            ///< with twice the pixels of each camera, ceilings as they are
  Ranged<Time> told_doubled;            ///< cut to the law's cap
  std::optional<Ranged<Time>> rebuild;  ///< of one disk; nothing without redundancy
};

/// What a recorder's disks hold and how many may fail, in a sentence without its full stop; empty without disks.
std::string disks_in_words(const RecorderStorage& recorder);

/// What twice the pixels of each camera would do to the days that are told, likewise.
std::string doubled_in_words(const RecorderStorage& recorder);

struct CardStorage {
  std::string camera;
  DataSize card;
  Ranged<Time> kept;         ///< cut to the law's cap
  bool cut = false;          ///< all of that range
  Ranged<Time> lives;        ///< until its cells are worn
  Time wanted_for;           ///< that it is to keep
  Bearing<DataSize> wanted;  ///< of card for that, beside what there is
  Held life = Held::kMet;    ///< beside kCardLife
  std::string remedy;        ///< of either
  Held held = Held::kMet;    ///< the worse of both
};

struct StorageLoads {
  std::vector<RecorderStorage> recorders;
  std::vector<CardStorage> cards;
  std::vector<Caution> cautions;
  Held held = Held::kMet;
};

StorageLoads storage(const need::Project& project, const Cabling& cabling, const std::vector<StreamRate>& rates);

}  // namespace sightfall::loads
