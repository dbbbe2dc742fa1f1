#pragma once

#include "solver/case.hpp"
#include "solver/interval.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace thinspot::solver {

/// An uncertain input, or several whose errors go together, by what it does to
/// the least thickness that counts.
struct Doubt {
  struct Input {
    std::string key;        ///< as for_each_quantity has it
    Quantity stated;        ///< SI
    std::size_t layer = 0;  ///< of several, from 1; 0: there are none
  };
  std::vector<Input> inputs;
  double share = 0;  ///< of the variance that all inputs make together, 0..1
  /// What a careful measurement leaves of its half width, 0..1; 1 where none at
  /// a bench would be better.
  double left = 1;
  Interval then;  ///< 95 % band of the least thickness after that [m]
};

/// How sure the least thickness that counts is, how that was found, and what
/// would make it surer.
struct Forecast {
  enum class Method {
    none,    ///< no input is uncertain
    linear,  ///< each input to its ends, changes added up by squares
    draws    ///< all inputs drawn by lot at once, quantiles
  };
  Method method = Method::none;
  std::size_t draws = 0;      ///< how many
  std::string why;            ///< a sentence: how, and why not the other
  double least = 0;           ///< thickness that counts, thinnest part [m]
  Interval band;              ///< of it, 95 % [m]
  std::vector<Doubt> doubts;  ///< largest share first
};

}  // namespace thinspot::solver
