// SPDX-License-Identifier: GPL-3.0-or-later
// What is assumed where a sheet or a document is silent: a nominal value, a 90 % range and a source for each.
//   Source   data/typical.json, the one table; a document may replace any entry in `settings.typical`
#pragma once
#include <array>
#include <memory>
#include <string>
#include <vector>

#include "base/ranged.h"
#include "detail/codec.h"

namespace sightfall::detail {

/// One entry of the table. `unit` is for display; `value` is in that unit.
struct TypicalValue {
  Ranged<double> value;
  std::string unit;
  std::string meaning;
  std::string source;
  std::string settle;  ///< how a user can find the true value
};

/// Every assumption by name; the members are the names in data/typical.json.
struct Typical {
  // The eye and the pattern
  TypicalValue contrast_threshold;  ///< least contrast that is still made out
  TypicalValue contrast_face, contrast_person, contrast_plate, contrast_vehicle, contrast_object;
  TypicalValue glare;           ///< stray light as a share of the frame's mean
  TypicalValue veil_luminance;  ///< of a veil, over the subject's mean
  // The lens
  TypicalValue lens_blur_economy, lens_blur_standard, lens_blur_precise;  ///< Gaussian sigma, px
  TypicalValue view_tolerance;      ///< stated angle of view, as a factor on the density
  TypicalValue format_tolerance;    ///< nominal optical format, the same
  TypicalValue f_number_tolerance;  ///< factor
  TypicalValue f_number_unknown;    ///< when a quick question gives none
  TypicalValue focus_setting;       ///< factor on a focus distance that was estimated
  TypicalValue smallest_iris;       ///< f-number that an automatic iris closes to
  // Time
  TypicalValue shutter_slowest;              ///< that automatic exposure goes to, s
  TypicalValue speed_walker, speed_vehicle;  ///< m/s
  TypicalValue readout;                      ///< of a full frame, row after row, ms
  // Facing and size
  TypicalValue face_yaw, face_pitch, plate_angle;  ///< largest angle that still counts as facing, degrees
  TypicalValue height_face, height_person, height_plate, height_vehicle, height_object;  ///< size in the vertical, m
  // The subject after dark, monochrome in near infrared
  TypicalValue contrast_face_near, contrast_person_near, contrast_plate_near, contrast_vehicle_near,
      contrast_object_near;
  TypicalValue reflectance_factor;             ///< on the reflectance of the subject's material
  TypicalValue plate_retro, plate_retro_half;  ///< sheeting: largest coefficient, 1/sr; half of it at, degrees
  // The sensor and its exposure
  TypicalValue noise_threshold;          ///< least ratio of signal to noise over a bar (Rose)
  TypicalValue efficiency;               ///< electrons per photon at 550 nm
  TypicalValue near_850, near_940;       ///< response there over that at 550 nm, filter out
  TypicalValue lens_transmission;        ///< of lens and cover glass
  TypicalValue read_noise;               ///< electrons
  TypicalValue full_well;                ///< electrons per square micrometre of pixel
  TypicalValue dark_current;             ///< electrons a second
  TypicalValue largest_gain;             ///< dB
  TypicalValue exposure_target;          ///< metered mean over full scale, linear
  TypicalValue night_switch;             ///< lx at the scene below which the filter is moved out
  TypicalValue day_switch;               ///< factor on it above which the filter is moved in again
  TypicalValue frames_low, frames_high;  ///< that noise reduction averages
  TypicalValue smear_low, smear_high;    ///< noise reduction takes patterns of this ratio to noise for noise
  TypicalValue dynamic_ratio;            ///< between the exposures of wide dynamic range
  // Infrared
  TypicalValue infrared_efficiency;  ///< radiated over electrical power
  TypicalValue infrared_share;       ///< of the largest draw, when the lamp's own is not stated
  TypicalValue infrared_draw;        ///< W, when nothing is stated
  TypicalValue infrared_beam;        ///< full width at half power over the horizontal view
  TypicalValue infrared_offset;      ///< m, between lamp and lens
  TypicalValue adaptive_clip;        ///< share of the frame that adaptive infrared lets clip
  TypicalValue glass_return;         ///< 1/m2: what a pane shared by lamp and lens throws back
  // Air and stray light
  TypicalValue scatter_angle;  ///< sr: backscatter is extinction over it
  TypicalValue flare;          ///< cd/m2 of stray light per lx and square degree from the axis
  TypicalValue headlight;      ///< cd of one headlight towards a camera
  // Compression
  TypicalValue stream_step;     ///< factor on the step of the quantiser that data/codec.json gives
  TypicalValue stream_quality;  ///< constant rate factor
  std::array<std::shared_ptr<const CodecTable>, 2> codecs;  ///< H.264, H.265, from data/codec.json
  // What carries cameras
  TypicalValue cable_slack;                                       ///< factor on the length worked out along ways
  TypicalValue service_loop;                                      ///< m, both ends of a run together
  TypicalValue conductor_temperature;                             ///< degrees Celsius, in a bundle in summer
  TypicalValue supply_efficiency;                                 ///< from the mains to what hangs on a supply
  TypicalValue battery_efficiency;                                ///< from a battery to what hangs on it
  TypicalValue battery_age;                                       ///< share of the rated capacity that is left
  TypicalValue peukert_flooded, peukert_sealed, peukert_lithium;  ///< Peukert's exponent
  TypicalValue body_draw;                  ///< W, of a camera without its infrared, when nothing is stated
  TypicalValue motion_share;               ///< of the time that something moves
  TypicalValue rate_forecast;              ///< factor on a rate of data/codec.json
  TypicalValue viewer_rate;                ///< Mbit/s of a small picture for one viewer outside
  TypicalValue disk_share;                 ///< of a disk that recordings get
  TypicalValue write_amplification;        ///< of a card
  TypicalValue card_cycles;                ///< that each cell of a card can be written
  TypicalValue wind_speed;                 ///< m/s, fundamental basic velocity
  TypicalValue body_drag;                  ///< force coefficient of a camera
  TypicalValue body_side;                  ///< m, side of a square that the wind meets
  TypicalValue body_mass;                  ///< kg
  TypicalValue wood_gravity;               ///< specific gravity, oven-dry
  TypicalValue fixing_spread, fixing_arm;  ///< m
  // How mounts sway
  TypicalValue pole_sway;       ///< factor on the bend of a pole in a fresh breeze
  TypicalValue pole_frequency;  ///< factor on the frequency of a pole on a stiff foot
  TypicalValue sway_frequency;  ///< Hz, of a mount off a pole
  // Lamps on the mains
  TypicalValue flicker_led, flicker_halogen, flicker_sodium;  ///< depth of lamps on the mains
};

}  // namespace sightfall::detail
