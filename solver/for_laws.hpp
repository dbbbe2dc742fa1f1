#pragma once

#include "solver/electrode_laws.hpp"

#include <memory>

namespace thinspot::solver {

/// What is made for a conductivity and laws, kept until others are asked for.
template <class System>
class ForLaws {
 public:
  /// @param make  returns a shared pointer to the system for these; called
  ///              where they are others, when the one before is gone: what it
  ///              takes is needed
  template <class Make>
  const System& get(double conductivity, const LocalLaws& laws, Make make) {
    if (system_ && conductivity_ == conductivity && laws_ == laws)
      return *system_;
    system_ = nullptr;
    system_ = make();
    conductivity_ = conductivity;
    laws_ = laws;
    return *system_;
  }

 private:
  double conductivity_ = 0;
  LocalLaws laws_;
  std::shared_ptr<const System> system_;
};

}  // namespace thinspot::solver
