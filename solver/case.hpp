#pragma once

#include "mesh/section.hpp"
#include "solver/plan_wishes.hpp"

#include <array>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace thinspot::solver {

struct BaseMetals;

/// A number with the half width of its 95 % interval; 0 where taken as exact.
struct Quantity {
  double value = 0;
  double plus_minus = 0;
  /// Written as a range: all between the ends is as likely, nothing beyond
  /// them, and `plus_minus` is half of it.
  bool evenly = false;
  bool operator==(const Quantity&) const = default;
};

struct Metal {
  std::string name;
  double molar_mass = 0;  ///< [kg/mol]
  int electrons = 0;      ///< per atom deposited
  double density = 0;     ///< [kg/m3]
  std::string source;
};

/// Something dissolved.
struct Substance {
  std::string name;          ///< as in the library: "nickel chloride"
  double concentration = 0;  ///< of its formula unit [mol/m3]
};

/// Where a figure of the solution comes from and how sure it is, for those who
/// read the result.
struct Provenance {
  std::string key;     ///< "conductivity"
  std::string source;  ///< published, "from memory", "common practice, no
                       ///< source", or "given"
  std::string sure;    ///< in words: "measured data", "wide guess: measure it"
};

/// Current densities at which a solution usually plates well.
struct UsualRange {
  double low = 0, high = 0;  ///< mean over the part [A/m2]
  std::string source;
  bool agitated = false;  ///< the source has stirred solutions in mind
};

/// Cathode current efficiency at a current density; once a case is read, over
/// Solution::efficiency.
struct EfficiencyAt {
  double density = 0;  ///< [A/m2]
  double efficiency = 0;
};

struct Solution {
  std::string name;
  std::string entry;  ///< of the library; empty: none
  std::vector<Substance> made_of;
  /// What cautions go by: "acid", "alkali", "chloride", "cyanide", "nickel",
  /// "copper", "zinc", "tin", "silver", "gold", "acetate", "ammonium",
  /// "peroxide", "fluoride", "chromate"; whatever of it is in there.
  std::vector<std::string> contains;
  std::vector<Provenance> sources;
  std::optional<double> volume;  ///< [m3]
  std::string acidity;  ///< in words: "strongly acid, pH below 1"; empty: not
                        ///< known
  std::optional<double> metal_concentration;  ///< [mol/m3]
  /// Above it a soluble anode of the metal itself stops dissolving [A/m2].
  std::optional<Quantity> anode_limit;
  Metal metal;
  Quantity conductivity;  ///< [S/m]
  /// Cathode current efficiency, 0..1; where it goes by current density, that
  /// at the part's mean.
  Quantity efficiency{1.0, 0.0};
  /// By current density, rising; straight between its points, constant beyond
  /// them. Empty: the same everywhere.
  std::vector<EfficiencyAt> efficiency_table;
  std::optional<Quantity> limiting_current_density;  ///< [A/m2]
  std::optional<UsualRange> usual;                   ///< of the library's entry
  double temperature = 298.15;                       ///< [K]
  /// By which conductivity grows with temperature, d ln / dT [1/K]. From
  /// memory: 2 % for salts, 1 to 1.5 % for strong acids.
  Quantity conductivity_per_kelvin{0.02, 0.01};
  std::string stirring = "still";
};

/// How current density follows the overpotential of an electrode.
enum class Law {
  linear,        ///< overpotential = offset + resistance * density
  tafel,         ///< density = i0 exp(over / b)
  butler_volmer  ///< density = i0 (exp(over / b) - exp(-over / reverse b))
};

/// Polarization of an electrode. Densities and overpotentials count positive
/// in the direction in which it works: into a cathode, out of an anode.
struct Polarization {
  Law law = Law::linear;
  Quantity resistance;  ///< linear: slope d(eta)/di [ohm m2]; 0: fixed
                        ///< potential
  /// Mean current density at which the slope holds [A/m2]; at another mean it
  /// is rescaled by at/mean. Left out: constant slope.
  std::optional<double> at;
  Quantity offset;  ///< [V], positive in the direction of loss
  Quantity exchange_current_density;  ///< i0, of the curved laws [A/m2]
  Quantity tafel_slope;               ///< b ln 10 [V/decade]
  Quantity reverse_tafel_slope;       ///< of the other direction [V/decade]
  /// The density stays below the solution's limiting current density.
  bool mass_transfer = false;
};

struct Wire {
  std::string name;
  double diameter = 0;  ///< [m]
  double wetted = 0;    ///< length under the liquid [m]
  bool insulated = false;
};

/// Everything about an anode except its place, which is in the section.
struct Anode {
  std::string name;
  std::size_t solid = 0;  ///< index into SectionSpec::solids
  std::string metal;
  bool soluble = true;
  Quantity open_circuit_voltage;  ///< [V]
  Polarization polarization;
  Quantity bag_resistance;  ///< [ohm m2]
  /// Above it this anode passivates; left out: as the solution has it [A/m2].
  std::optional<Quantity> limit = {};
  /// Index into Case::rectifiers; 0 where one supply feeds all.
  std::size_t rectifier = 0;
};

/// A drawn conductor that holds the part; on the minus rail. Its own area
/// takes current, where it touches the part stays bare.
struct Clip {
  std::string name;
  std::vector<std::size_t> solids;  ///< one; on a rack one a place
  Quantity contact_resistance;      ///< between it and the part [ohm]
};

/// A cathode beside the part that takes current away from its edges.
struct Thief {
  std::string name;
  std::size_t solid = 0;
  Quantity resistance;                       ///< in its lead [ohm]
  std::optional<Polarization> polarization;  ///< left out: as the part's
};

/// Metal in the tank that nothing is connected to: its net current is zero.
struct Floating {
  std::string name;
  std::size_t solid = 0;
  std::string metal;
  /// The same slope where it plates and where it dissolves; no rescaling, no
  /// offset.
  Quantity resistance;  ///< [ohm m2]
};

/// Several copies of the part, each with its clips, wires and masks.
struct Rack {
  std::vector<mesh::Point> at;  ///< of each copy's centre [m]
  /// Of each copy's contact to the rack [ohm]; empty: none.
  std::vector<Quantity> contact_resistance;
};

/// A mains adapter of fixed voltage that limits no current of itself.
struct Adapter {
  double voltage = 0;             ///< [V]
  std::optional<double> current;  ///< that it is rated for [A]
  bool operator==(const Adapter&) const = default;
};

/// Exactly one of current, current_density, voltage is set.
struct Supply {
  std::optional<Quantity> current;          ///< whole cathode current [A]
  std::optional<Quantity> current_density;  ///< mean over the part [A/m2]
  std::optional<Quantity> voltage;          ///< at the supply's terminals [V]
  std::optional<double> voltage_limit;      ///< [V]
  Quantity lead_resistance;                 ///< [ohm]
  std::optional<Adapter> adapter = {};      ///< in place of a bench supply
  bool operator==(const Supply&) const = default;
};

/// A supply for some of the anodes. The minus of all is one rail, on which the
/// cathodes are.
struct Rectifier {
  std::string name;
  Supply supply;
};

/// How a part turns within a step, counter-clockwise from how it stands then.
struct Turning {
  int positions = 0;  ///< evenly spread, one after the other; 0: no stop
  double dwell = 0;   ///< at each position [s]; 0: all of the step, once
  double rate = 0;    ///< without a stop [turns/s]
  bool operator==(const Turning&) const = default;
};

/// One stretch of time in which nothing is changed. What a step leaves out is
/// as in the step before it, and filled in where the case is read.
struct Step {
  Quantity duration;                     ///< [s]
  mesh::Motion motion = {};              ///< of the part, from how it is drawn
  std::optional<Supply> supply = {};     ///< in place of the case's
  std::vector<std::string> off = {};     ///< anodes that are cut off and stay
                                         ///< in the tank
  std::vector<std::string> lifted = {};  ///< anodes taken out of the tank
  std::optional<Turning> turning = {};
  /// Clips that are on the part; left out: all.
  std::optional<std::vector<std::string>> clips = {};
  /// In place of the settings of Case::rectifiers, in their order.
  std::optional<std::vector<Supply>> rectifiers = {};
  /// Of the solution from this step on, where it changes; case_of_step tells
  /// what holds in a step.
  std::optional<double> temperature = {};     ///< [K]
  std::optional<Quantity> conductivity = {};  ///< at that temperature [S/m]
};

struct Target {
  std::optional<double> thickness;  ///< least local thickness wanted [m]
  /// Where a published standard's class asked for it; empty: none.
  std::string standard, thickness_class;
  std::string thickness_source;    ///< edition and whether from memory
  std::string class_metal;         ///< that the class is of, and nothing else
  std::vector<std::string> faces;  ///< empty: what a 20 mm ball touches
  double contact_margin = 0;       ///< [m]
  std::optional<double> burning_current_density;       ///< [A/m2]
  std::optional<std::array<double, 2>> working_range;  ///< [A/m2]
};

struct Accuracy {
  double tolerance = 1e-3;         ///< of the mean
  double averaging_length = 1e-4;  ///< [m]
};

struct Probe {
  std::string name;
  mesh::Point at = mesh::Point::Zero();  ///< [m]
};

/// Errors of two quantities that go together: what was fitted to one set of
/// readings, say.
struct Correlated {
  std::array<std::string, 2> of;  ///< addresses, as for_each_quantity has them
  double by = 0;                  ///< correlation, between -1 and 1
};

/// Something the user did not say, and what was taken in its place.
struct Assumption {
  std::string key;
  std::string value;  ///< with unit
  std::string why;
};

/// A whole case as plain data, SI units throughout, nothing unresolved.
struct Case {
  std::string title;
  mesh::SectionSpec section;
  std::optional<double> depth;      ///< planar sections [m]
  std::optional<double> part_area;  ///< whole real area [m2]
  Solution solution;
  std::string part_metal;
  /// Of several layers, what lies under this one: the part's own metal, then
  /// the kind of solution of each layer before. Empty: the part is bare.
  std::vector<std::string> below = {};
  /// What the library knows of metals to be plated; null: nothing.
  std::shared_ptr<const BaseMetals> base_metals = {};
  Polarization cathode;
  std::vector<Wire> wires;  ///< of one part; every copy on a rack has them
  std::vector<Anode> anodes;
  std::vector<Clip> clips;
  std::vector<Thief> thieves;
  std::vector<Floating> floating;
  std::optional<Rack> rack;
  Supply supply;  ///< of all anodes, where there are no rectifiers
  std::vector<Rectifier> rectifiers;  ///< empty: one supply
  std::vector<Step> steps;
  Target target;
  Accuracy accuracy;
  bool growth = false;  ///< the part's surface moves with its deposit
  std::vector<Probe> probes;
  std::vector<Correlated> correlated = {};
  PlanWishes plan = {};  ///< of `thinspot plan`; nothing else reads them
  std::vector<Assumption> assumed;
  std::vector<std::string> notes;  ///< on what was read: entities of a drawing
                                   ///< that were left out
  std::string file = {};           ///< as the user named it; empty: from none
};

/// Of all steps together [s].
double total_duration(const Case& c);

/// @returns nullptr where the case has none of that name.
const Anode* anode_named(const Case& c, const std::string& name);

/// Of the part: places on the rack, or 1.
std::size_t copies_of(const Case& c);

/// Surface of a wire that takes current [m2]; 0 where it is insulated.
double bare_area(const Wire& wire);

/// Calls `visit` with the case-file address of every quantity that may carry
/// an uncertainty. The one list of them: the bands are computed from it.
void for_each_quantity(
    Case& c,
    const std::function<void(const std::string& key, Quantity&)>& visit);

}  // namespace thinspot::solver
