#include "io/sweep_sharing.hpp"

#include <algorithm>
#include <array>
#include <string_view>

namespace thinspot::io {

namespace {

constexpr std::array<std::string_view, 7> kPolarization{
    "law",
    "polarization_resistance",
    "polarization_at",
    "polarization_offset",
    "exchange_current_density",
    "tafel_slope",
    "reverse_tafel_slope"};

bool is_polarization(std::string_view key) {
  return std::find(kPolarization.begin(), kPolarization.end(), key) !=
         kPolarization.end();
}

/// Nothing that a table holds beside numbers with their unit.
bool is_plain(const SweepAxis& axis) { return !axis.has_words(); }

bool in_solution(std::string_view key, const SweepAxis& axis) {
  // Efficiency may be a table over current density, and then another law.
  return key == "conductivity" || key == "temperature" ||
         key == "limiting_current_density" ||
         (key == "efficiency" && is_plain(axis));
}

bool in_step(std::string_view key, const solver::Case& c) {
  // How long a step is decides which positions of a turn it reaches.
  const bool turns = std::any_of(c.steps.begin(), c.steps.end(),
                                 [](const auto& s) { return s.turning; });
  return key == "temperature" || key == "conductivity" ||
         (key == "duration" && !turns);
}

}  // namespace

bool leaves_meshes(const Address& address, const SweepAxis& axis,
                   const solver::Case& c) {
  // Where the deposit moves the surface all moves it.
  if (c.growth) return false;
  const std::string_view table = address.place->info->name;
  const std::string_view key = address.key->name;
  if (table == "supply" || table == "rectifier") return key != "name";
  if (table == "cathode") return is_polarization(key);
  if (table == "solution") return in_solution(key, axis);
  if (table == "step") return in_step(key, c);
  if (table == "anode")
    return is_polarization(key) || key == "open_circuit_voltage" ||
           key == "bag_resistance" || key == "limit";
  if (table == "thief") return is_polarization(key) || key == "resistance";
  if (table == "clip") return key == "contact_resistance";
  if (table == "floating") return key == "polarization_resistance";
  if (table == "target")
    return key == "thickness" || key == "burning_current_density" ||
           key == "working_range";
  return false;
}

}  // namespace thinspot::io
