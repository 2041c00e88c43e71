// SPDX-License-Identifier: GPL-3.0-or-later
// Where a sensor that switches does so, against curves whose crossings are known in closed form. All numbers
// are invented.
#include "apps/advice/sensor_advice.hpp"

#include <cmath>

#include "tests/near.hpp"

namespace coilpull {

TEST_CASE("a unipolar sensor switches where its field passes the levels, scattered as its sheet") {
  // B = 10 mT (1 - |z - 20 mm| / 20 mm): on at 20 B / 10 mT from the near end, off as far from the other.
  SensorCurve curve;
  for (int n = 0; n <= 40; ++n) {
    curve.displacements.push_back(1e-3 * n);
    curve.along_T.push_back(10e-3 * (1 - std::abs(n - 20) / 20.0));
  }
  SwitchingSensor sensor{0, 1, 0, SwitchingSensor::Kind::unipolar, {4e-3, 6e-3, 8e-3}, {2e-3, 4e-3, 6e-3}};
  const SensorPassage seen = passage(curve, sensor);
  REQUIRE(seen.operates);
  CHECK(seen.operates->typical == near(12e-3, 1e-9));  // straight lines between the points: exact
  CHECK(seen.operates->least == near(8e-3, 1e-9));
  CHECK(seen.operates->most == near(16e-3, 1e-9));
  REQUIRE(seen.releases);
  CHECK(seen.releases->typical == near(32e-3, 1e-9));
  CHECK(seen.releases->width() == near(8e-3, 1e-9));

  // The way back: on at the far end, off at the near one.
  const SensorPassage back = passage(turned_round(curve), sensor);
  REQUIRE(back.operates);
  REQUIRE(back.releases);
  CHECK(back.operates->typical == near(28e-3, 1e-9));
  CHECK(back.releases->typical == near(8e-3, 1e-9));

  // 0.1 mT open of the field, over a slope of 0.5 mT/mm; these lines do not bend there.
  CHECK(passage(curve, sensor, 0.1e-3).operates->bar == near(0.2e-3, 1e-9));

  SwitchingSensor keen = sensor;  // some are on before it starts: no place where every one goes on
  keen.operate.least = -1e-3;
  CHECK_FALSE(passage(curve, keen).operates);
  CHECK(passage(curve, keen).keen_on_at_start);
  CHECK_FALSE(passage(curve, keen).on_at_start);

  sensor.operate.most = 11e-3;  // a dull one never goes on
  CHECK_FALSE(passage(curve, sensor).operates);
}

TEST_CASE("a latching sensor waits for the field to reverse") {
  SensorCurve curve;
  for (int n = 0; n <= 40; ++n) {
    curve.displacements.push_back(1e-3 * n);
    curve.along_T.push_back(10e-3 * (1 - n / 20.0));  // 0 at 20 mm
  }
  const SwitchingSensor sensor{
      0, 1, 0, SwitchingSensor::Kind::latching, {2e-3, 3e-3, 4e-3}, {-4e-3, -3e-3, -2e-3}};
  const SensorPassage seen = passage(curve, sensor);
  CHECK(seen.on_at_start);
  REQUIRE(seen.releases);
  CHECK(seen.releases->typical == near(26e-3, 1e-9));
}

TEST_CASE("a bent field's line between points misses its place by less than the bar") {
  // B = 10 mT exp(-s^2 / 2) over 4 mm, a point a millimetre: 3 mT at s = sqrt(2 ln(10 / 3)).
  SensorCurve curve;
  for (int n = -20; n <= 20; ++n) {
    curve.displacements.push_back(1e-3 * n);
    curve.along_T.push_back(10e-3 * std::exp(-n * n / 32.0));
  }
  const SwitchingSensor sensor{
      0, 1, 0, SwitchingSensor::Kind::unipolar, {6e-3, 6e-3, 6e-3}, {3e-3, 3e-3, 3e-3}};
  const SensorPassage seen = passage(curve, sensor);
  REQUIRE(seen.releases);
  const double exact = 4e-3 * std::sqrt(2 * std::log(10 / 3.0));
  CHECK(std::abs(seen.releases->typical - exact) < seen.releases->bar);
  CHECK(seen.releases->bar < 0.1e-3);
}

TEST_CASE(
    "a sensor's places hold its corners within the tolerance, and nothing farther counts as its place") {
  Sensor sensor;
  sensor.name = "exit";
  sensor.at = {16e-3, 10e-3};
  const double tolerance = 0.2e-3;
  const SensorPlaces places =
      places_around(sensor, tolerance, 20e-3, [](const Sensor& copy) { return copy.at.z < 15.1e-3; });
  CHECK(places.shifts.front() == near(-20e-3, 1e-12));
  CHECK(places.shifts.back() == near(5e-3, 1e-12));  // where the field is no longer known
  int within = 0;
  for (std::size_t k = 0; k < places.copies.size(); ++k) {
    const Point at = places.copies[k].at;
    const bool near_it =
        std::abs(at.r - sensor.at.r) < 1.01 * tolerance && std::abs(at.z - sensor.at.z) < 1.01 * tolerance;
    CHECK(places.within_tolerance(k) == near_it);
    within += near_it;
  }
  CHECK(within == 9);  // three r by three z
  CHECK(places.copies[places.itself].at.z == near(sensor.at.z, 1e-12));
}

TEST_CASE("a coil trips a sensor that the magnet left off, and masks one that it held on") {
  const SwitchingSensor sensor{
      0, 1, 0, SwitchingSensor::Kind::unipolar, {4e-3, 6e-3, 8e-3}, {2e-3, 4e-3, 6e-3}};
  const SensorCurve off{{0, 1e-3}, {0, 9e-3}}, harmless{{0, 1e-3}, {1e-3, 10e-3}},
      trips{{0, 1e-3}, {4e-3, 13e-3}}, masks{{0, 1e-3}, {-4e-3, 5e-3}};
  const CoilOnSensor no = coil_on_sensor(off, {harmless}, sensor),
                     trip = coil_on_sensor(off, {trips}, sensor), mask = coil_on_sensor(off, {masks}, sensor);
  CHECK((!no.trips && !no.masks));
  CHECK((trip.trips && !trip.masks));
  CHECK((!mask.trips && mask.masks));
  CHECK(trip.most_T == near(4e-3, 1e-12));
}

}  // namespace coilpull
