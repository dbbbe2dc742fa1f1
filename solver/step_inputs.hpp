#pragma once

#include "solver/case.hpp"
#include "solver/electrodes.hpp"

#include <Eigen/Core>

namespace thinspot::solver {

/// Where each number that the currents of one step go by stands in a row: the
/// conductivity, then those of each supply, then those of each electrode.
class InputPlaces {
 public:
  InputPlaces(std::size_t supplies, std::size_t electrodes)
      : supplies_(static_cast<Eigen::Index>(supplies)),
        electrodes_(static_cast<Eigen::Index>(electrodes)) {}

  static constexpr Eigen::Index conductivity = 0;  ///< [S/m]

  enum OfSupply : Eigen::Index {
    setting,  ///< what it is set to [A], [A/m2] or [V]
    lead,     ///< [ohm]
    supply_numbers
  };
  enum OfElectrode : Eigen::Index {
    resistance,  ///< of the law as stated [ohm m2]
    bag,         ///< [ohm m2]
    exchange,    ///< [A/m2]
    slope,       ///< [V/decade]
    reverse,     ///< [V/decade]
    limit,       ///< of mass transfer; 0: none [A/m2]
    moved,       ///< what moves the metal's own potential [V]
    series,      ///< between the metal and its rail [ohm]
    electrode_numbers
  };

  Eigen::Index at(OfSupply number, std::size_t supply) const {
    return 1 + supply_numbers * static_cast<Eigen::Index>(supply) + number;
  }
  Eigen::Index at(OfElectrode number, std::size_t electrode) const {
    return 1 + supply_numbers * supplies_ +
           electrode_numbers * static_cast<Eigen::Index>(electrode) + number;
  }
  Eigen::Index count() const {
    return 1 + supply_numbers * supplies_ + electrode_numbers * electrodes_;
  }

 private:
  Eigen::Index supplies_, electrodes_;
};

InputPlaces places_of(const Case& alone, const Electrodes& electrodes);

/// One supply of all anodes counts as the only rectifier.
const Supply& supply_of(const Case& alone, std::size_t rectifier);

/// The numbers of a step.
/// @param alone  the step alone, as of case_of_step
Eigen::VectorXd inputs_of(const Case& alone, const Electrodes& electrodes);

}  // namespace thinspot::solver
