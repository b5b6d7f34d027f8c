// SPDX-License-Identifier: GPL-3.0-or-later
// Files of both photometric formats, made here from distributions whose lumens have a closed form, read and summed.
//   Source   flux of I0 cos^n about its axis: 2 pi I0 / (n + 1); of the same towards every direction: 4 pi I0. Field
//            order of LM-63-2002; of EULUMDAT after Stockmar 1990/1998; angles of types A and B from the key
//            definitions of LM-63-2002
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <iterator>
#include <numbers>
#include <string>
#include <vector>

#include "light/lamp_file.h"

namespace sightfall::light {
namespace {

using namespace units;
using std::numbers::pi;

constexpr double kAxis = 600;  // cd on the axis
constexpr double kFine = 1.5;  // degrees: between them cos^10 is straight enough for its lumens

/// Of I0 cos^n, or of the same everywhere.
struct Spread {
  std::string name;
  double lumens;
  std::function<double(double cosine)> relative;
};

std::vector<Spread> spreads() {
  std::vector<Spread> all{{"isotropic", 4 * pi * kAxis, [](double) { return 1.0; }}};
  for (const int n : {1, 2, 10})
    all.push_back({fmt::format("cos^{}", n), 2 * pi * kAxis / (n + 1),
                   [n](double cosine) { return cosine > 0 ? std::pow(cosine, n) : 0; }});
  return all;
}

std::vector<double> steps(double first, double last, double step) {
  std::vector<double> angles;
  for (double angle = first; angle < last + step / 2; angle += step) angles.push_back(angle);
  return angles;
}

double cosine(double degrees) { return std::cos(degrees * deg.si()); }

/// Cosine to the axis of a direction by the angles of a type: 1 is C, 2 is B, 3 is A.
double towards_axis(int type, double vertical, double horizontal) {
  return type == 1 ? cosine(vertical) : cosine(vertical) * cosine(horizontal);
}

std::string list(const std::vector<double>& numbers, const char* end) {
  return fmt::format("{:.9g}{}", fmt::join(numbers, end), end);
}

std::string lm63(const Spread& spread, int type, const std::vector<double>& vertical,
                 const std::vector<double>& horizontal) {
  std::string text = fmt::format("IESNA:LM-63-2002\n[TEST] made up\n[LUMINAIRE] {}\nTILT=NONE\n", spread.name);
  // Half of the intensity, and factors that double it.
  text +=
      fmt::format("1 {:.9g} 2.5 {} {} {} 2 0 0 0\n0.8 1 10\n", spread.lumens, vertical.size(), horizontal.size(), type);
  text += list(vertical, "\n") + list(horizontal, " ") + "\n";
  for (const double h : horizontal) {
    std::vector<double> values;
    for (const double v : vertical) values.push_back(kAxis / 2 * spread.relative(towards_axis(type, v, h)));
    text += list(values, " ") + "\n";
  }
  return text;
}

std::string eulumdat(const Spread& spread, int symmetry, size_t stored, const std::vector<double>& planes,
                     const std::vector<double>& gammas) {
  std::string text = fmt::format("made up\n1\n{}\n{}\n0\n{}\n0\nreport\n{}\nn\nf\nd\n", symmetry, planes.size(),
                                 gammas.size(), spread.name);
  text += "100\n100\n50\n90\n90\n0\n0\n0\n0\n100\n100\n1\n0\n2\n";
  for (const double lumens : {4000.0, 8000.0}) text += fmt::format("2\nLED\n{}\n3000\n80\n40\n", lumens);
  for (int i = 0; i < 10; ++i) text += "0.5\n";
  text += list(planes, "\n") + list(gammas, "\n");
  std::vector<double> values;
  for (const double gamma : gammas) values.push_back(kAxis / 4 * spread.relative(cosine(gamma)));
  for (size_t i = 0; i < stored; ++i) text += list(values, "\n");
  return text;
}

void expect_lumens(const std::string& text, double lumens, const std::string& of) {
  const Result<LampFile> lamp = parse_lamp(text, "made");
  ASSERT_TRUE(lamp) << of << ": " << to_line(lamp.error());
  EXPECT_NEAR(lamp->candela.flux().in(lm), lumens, 1e-3 * lumens) << of;
}

TEST(LampFlux, Lm63TypeCOfEachSymmetry) {
  const auto vertical = steps(0, 180, kFine);
  for (const Spread& spread : spreads())
    for (const auto& horizontal : {steps(0, 0, 1), steps(0, 90, 22.5), steps(0, 180, 15), steps(0, 360, 30),
                                   steps(0, 345, 15), steps(90, 270, 20)})
      expect_lumens(lm63(spread, 1, vertical, horizontal), spread.lumens,
                    fmt::format("{}, {} to {}", spread.name, horizontal.front(), horizontal.back()));
}

TEST(LampFlux, Lm63TypesAAndBOfEachSymmetry) {
  // The forward half; an isotropic lamp has half of its lumens there.
  for (const Spread& spread : spreads())
    for (const int type : {2, 3})
      for (const double vertical : {-90.0, 0.0})
        for (const double horizontal : {-90.0, 0.0})
          expect_lumens(lm63(spread, type, steps(vertical, 90, 2.5), steps(horizontal, 90, 2.5)),
                        spread.name == "isotropic" ? spread.lumens / 2 : spread.lumens,
                        fmt::format("{}, type {} from {}, {}", spread.name, type, vertical, horizontal));
}

TEST(LampFlux, Lm63TypesAAndBAllRound) {
  const Spread everywhere = spreads().front();
  expect_lumens(lm63(everywhere, 2, steps(-180, 180, 5), steps(-90, 90, 5)), everywhere.lumens, "type B");
  expect_lumens(lm63(everywhere, 3, steps(-90, 90, 5), steps(-180, 180, 5)), everywhere.lumens, "type A");
}

TEST(LampFlux, EulumdatOfEachSymmetry) {
  const auto planes = steps(0, 345, 15);
  const size_t count = planes.size();
  const std::vector<size_t> stored{count, 1, count / 2 + 1, count / 2 + 1, count / 4 + 1};
  for (const Spread& spread : spreads())
    for (int symmetry = 0; symmetry <= 4; ++symmetry)
      expect_lumens(eulumdat(spread, symmetry, stored[static_cast<size_t>(symmetry)], planes, steps(0, 180, kFine)),
                    spread.lumens, fmt::format("{}, symmetry {}", spread.name, symmetry));
}

/// A lamp turned out of its axis by 40 degrees towards one side: every format and type must shine to the same side.
TEST(LampFlux, EveryFileOfOneTurnedLampShinesTheSameWay) {
  const geom::Vec3 main{std::sin(40 * deg.si()) * 0.6, -std::sin(40 * deg.si()) * 0.8, cosine(40)};
  const auto turned = [&](geom::Vec3 way) { return kAxis * std::pow(std::max(0.0, dot(way, main)), 2); };
  const auto from_c = [](double gamma, double c) {
    const double sine = std::sin(gamma * deg.si());
    return geom::Vec3{sine * cosine(c), -sine * std::sin(c * deg.si()), cosine(gamma)};
  };
  const auto from_b = [](double v, double h) {
    return geom::Vec3{std::sin(h * deg.si()), -cosine(h) * std::sin(v * deg.si()), cosine(h) * cosine(v)};
  };
  const auto from_a = [](double v, double h) {
    return geom::Vec3{cosine(v) * std::sin(h * deg.si()), -std::sin(v * deg.si()), cosine(v) * cosine(h)};
  };
  const auto table = [&](int type, const auto& vertical, const auto& horizontal, const auto& way) {
    std::string text = fmt::format("IESNA:LM-63-2002\nTILT=NONE\n1 -1 1 {} {} {} 2 0 0 0\n1 1 10\n", vertical.size(),
                                   horizontal.size(), type);
    text += list(vertical, " ") + list(horizontal, " ");
    for (const double h : horizontal)
      for (const double v : vertical) text += fmt::format("{:.9g}\n", turned(way(v, h)));
    return text;
  };
  // Type C of LM-63 begins where C is 90.
  const auto type_c = [&](double v, double h) { return from_c(v, h + 90); };
  const std::vector<std::string> files{table(1, steps(0, 180, 5), steps(0, 360, 5), type_c),
                                       table(2, steps(-180, 180, 5), steps(-90, 90, 5), from_b),
                                       table(3, steps(-90, 90, 5), steps(-180, 180, 5), from_a)};
  for (const std::string& text : files) {
    const Result<LampFile> lamp = parse_lamp(text, "turned");
    ASSERT_TRUE(lamp) << to_line(lamp.error());
    EXPECT_NEAR(lamp->candela.flux().in(lm), 2 * pi * kAxis / 3, 0.01 * 2 * pi * kAxis / 3)
        << "5 degrees between values";
    for (double gamma = 7; gamma < 180; gamma += 13)
      for (double c = 11; c < 360; c += 29) {
        const geom::Vec3 way = from_c(gamma, c);
        EXPECT_NEAR(intensity_towards(lamp->candela, way).in(cd), turned(way), 0.01 * kAxis) << gamma << ", " << c;
      }
  }
}

}  // namespace
}  // namespace sightfall::light
