#include "random_case_text.hpp"

#include "random_shape.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace thinspot::tests {

namespace {

class Writer {
 public:
  explicit Writer(std::uint64_t seed) : lot_(seed) {}

  std::string text() {
    choose();
    head();
    solution();
    part();
    anodes();
    beside();
    cathode();
    supply();
    steps();
    target();
    return out_;
  }

 private:
  template <class... Values>
  void line(fmt::format_string<Values...> form, Values&&... values) {
    out_ += fmt::format(form, std::forward<Values>(values)...) + "\n";
  }

  void choose() {
    // Mostly what hangs in a jar, at times what does not.
    size_ =
        lot_.chance(0.8) ? lot_.by_factor(3e-3, 0.2) : lot_.by_factor(1e-5, 3);
    axisymmetric_ = lot_.chance(0.12);
    plan_ = !axisymmetric_ && lot_.chance(0.35);
    thin_ =
        lot_.chance(0.85) ? lot_.by_factor(0.03, 0.8) : lot_.by_factor(1e-4, 1);
  }

  void head() {
    line("schema = 1\nsection = \"{}\"",
         axisymmetric_ ? "axisymmetric" : "planar");
    if (!axisymmetric_) line("view = \"{}\"", plan_ ? "plan" : "side");
    has_depth_ = !axisymmetric_ && lot_.chance(0.7);
    if (has_depth_) line("depth = {}", mm(size_));
    if (lot_.chance(0.02)) line("growth = true");
    width_ = size_ * lot_.by_factor(2, 12);
    height_ = size_ * lot_.by_factor(1.5, 8);
    level_ =
        height_ * (lot_.chance(0.85) ? lot_.even(0.8, 1) : lot_.even(0.05, 1));
    line("[tank]");
    if (plan_ && lot_.chance(0.3)) {
      height_ = width_;
      line("shape = \"round\"\ndiameter = {}", mm(width_));
    } else {
      line("shape = \"box\"\nwidth = {}\nheight = {}", mm(width_), mm(height_));
    }
    if (!plan_) line("level = {}", mm(level_));
    if (plan_) level_ = height_;
  }

  void solution() {
    line("[solution]");
    if (lot_.chance(0.4)) {
      line("use = \"{}\"",
           lot_.of<std::string>({"acid copper", "high-throw acid copper",
                                 "plain copper sulfate", "Watts nickel",
                                 "nickel sulfamate", "nickel acetate",
                                 "acid chloride zinc", "acid tin"}));
    } else {
      line("metal = \"{}\"",
           lot_.of<std::string>({"copper", "nickel", "zinc", "tin"}));
      const double k = lot_.chance(0.8) ? lot_.by_factor(0.5, 60)
                                        : lot_.by_factor(1e-6, 1e3);
      line("conductivity = \"{:.6g} S/m{}\"", k,
           lot_.chance(0.3) ? " +- 15 %" : "");
      if (lot_.chance(0.3))
        line("efficiency = \"{} % +- 3 %\"", lot_.whole(10, 97));
      has_limit_ = lot_.chance(0.4);
      if (has_limit_)
        line("limiting_current_density = \"{:.4g} A/dm2\"",
             lot_.by_factor(0.05, 200));
    }
    if (lot_.chance(0.4)) line("temperature = \"{} degC\"", lot_.whole(5, 80));
    if (lot_.chance(0.3))
      line("stirring = \"{}\"",
           lot_.of<std::string>({"still", "gentle", "strong", "rotating"}));
  }

  void part() {
    line("[part]");
    out_ += random_shape(lot_, size_, thin_, axisymmetric_);
    const double x = axisymmetric_ ? 0 : width_ * lot_.even(0.35, 0.65);
    const double y = level_ * lot_.even(0.35, 0.65);
    const int copies =
        lot_.chance(0.04) && !axisymmetric_ ? lot_.whole(2, 4) : 1;
    if (copies == 1) line("at = [{}, {}]", mm(x), mm(y));
    if (!axisymmetric_ && lot_.chance(0.3))
      line("turn = \"{} deg\"", lot_.whole(-180, 180));
    line("metal = \"{}\"",
         lot_.of<std::string>({"brass", "copper", "low-carbon steel",
                               "nickel silver", "stainless steel"}));
    if (!axisymmetric_ && !has_depth_)
      line("area = \"{:.5g} cm2\"", 1e4 * size_ * size_ * lot_.even(1, 4));
    if (copies > 1) {
      std::string places;
      for (int k = 0; k < copies; ++k)
        places += fmt::format("{}[{}, {}]", k ? ", " : "",
                              mm(width_ * (k + 0.7) / (copies + 0.4)), mm(y));
      line("[rack]\nat = [{}]", places);
    }
    if (lot_.chance(0.4))
      line("[[wire]]\ndiameter = \"{:.3g} mm\"\nwetted = {}\ninsulated = {}",
           lot_.by_factor(0.1, 3), mm(size_ * lot_.by_factor(0.1, 3)),
           lot_.chance(0.5));
  }

  /// A place anywhere in the liquid.
  void anywhere() {
    line("at = [{}, {}]", mm(axisymmetric_ ? 0 : width_ * lot_.share()),
         mm(level_ * lot_.share()));
  }

  void anodes() {
    const int count = lot_.chance(0.6) ? 1 : lot_.whole(2, 4);
    rectifiers_ = count > 1 && lot_.chance(0.15);
    for (int k = 0; k < count; ++k) {
      line("[[anode]]\nname = \"a{}\"", k + 1);
      if (axisymmetric_) {
        const double high = level_ * lot_.even(0.2, 0.9);
        if (lot_.chance(0.7))
          line("shape = \"tube\"\ndiameter = {}\nwall = {}\nlength = {}",
               mm(width_ * lot_.even(0.6, 0.98)), mm(width_ * 0.02), mm(high));
        else
          line("shape = \"plate\"\nwidth = {}\nheight = {}",
               mm(width_ * lot_.even(0.1, 0.9)), mm(level_ * 0.03));
        line("at = [\"0 mm\", {}]", mm(level_ * lot_.even(0.05, 0.95)));
      } else {
        const double thick = width_ * lot_.by_factor(0.005, 0.05);
        if (lot_.chance(0.8))
          line("shape = \"plate\"\nwidth = {}\nheight = {}", mm(thick),
               mm(level_ * lot_.even(0.1, 0.95)));
        else
          line("shape = \"rod\"\ndiameter = {}", mm(2 * thick));
        if (lot_.chance(0.7)) {
          line("side = \"{}\"\ngap = {}",
               lot_.of<std::string>(
                   plan_ ? std::vector<std::string>{"left", "right", "above",
                                                    "below"}
                         : std::vector<std::string>{"left", "right"}),
               mm(std::min(size_ * lot_.by_factor(0.05, 2),
                           0.3 * (width_ - size_))));
        } else {
          line("at = [{}, {}]",
               mm(width_ * (lot_.chance(0.5) ? lot_.even(0.02, 0.15)
                                             : lot_.even(0.85, 0.98))),
               mm(level_ * lot_.even(0.4, 0.6)));
        }
      }
      const bool soluble = lot_.chance(0.8);
      line("metal = \"copper\"\nkind = \"{}\"", soluble ? "soluble" : "inert");
      if (!soluble || lot_.chance(0.2))
        line("open_circuit_voltage = \"{:.3g} V\"",
             soluble ? lot_.even(-0.5, 1) : lot_.even(0.5, 2));
      if (lot_.chance(0.4))
        line("polarization_resistance = \"{:.4g} ohm cm2\"",
             lot_.by_factor(0.01, 100));
      if (lot_.chance(0.2))
        line("bag_resistance = \"{:.3g} ohm cm2\"", lot_.by_factor(0.1, 20));
      if (rectifiers_) line("rectifier = \"r{}\"", k % 2 + 1);
    }
  }

  void beside() {
    const auto small = [&] {
      out_ += random_shape(lot_, size_ * lot_.by_factor(0.05, 0.5), thin_,
                           axisymmetric_);
      anywhere();
    };
    if (lot_.chance(0.15)) {
      line("[[shield]]\nname = \"s\"");
      small();
    }
    if (lot_.chance(0.12)) {
      line("[[thief]]\nname = \"t\"");
      small();
      if (lot_.chance(0.5))
        line("resistance = \"{:.3g} ohm\"", lot_.by_factor(1e-3, 100));
    }
    if (lot_.chance(0.1)) {
      line("[[floating]]\nname = \"f\"\nmetal = \"brass\"");
      small();
    }
    if (!axisymmetric_ && lot_.chance(0.1)) {
      line(
          "[[clip]]\nname = \"c\"\nshape = \"plate\"\nwidth = {}\nheight = "
          "{}\nside = \"{}\"\ngap = \"0 mm\"",
          mm(size_ * 0.05), mm(size_ * 0.3),
          lot_.of<std::string>({"above", "left", "right"}));
    }
  }

  void cathode() {
    if (lot_.chance(0.2)) return;
    line("[cathode]");
    if (lot_.chance(0.2)) {
      const bool butler = lot_.chance(0.5);
      line("law = \"{}\"", butler ? "butler-volmer" : "tafel");
      line(
          "exchange_current_density = \"{:.4g} A/m2\"\ntafel_slope = \"{} "
          "mV\"",
          lot_.by_factor(1e-4, 100), lot_.whole(30, 400));
      if (butler && lot_.chance(0.5))
        line("reverse_tafel_slope = \"{} mV\"", lot_.whole(30, 400));
    } else {
      line("polarization_resistance = \"{:.6g} ohm cm2{}\"",
           lot_.chance(0.1)    ? 0
           : lot_.chance(0.85) ? lot_.by_factor(0.05, 50)
                               : lot_.by_factor(1e-4, 1e6),
           lot_.chance(0.2) ? " +- 20 %" : "");
      if (lot_.chance(0.4))
        line("polarization_at = \"{:.3g} A/dm2\"", lot_.by_factor(0.1, 20));
    }
    if (lot_.chance(0.3))
      line("polarization_offset = \"{:.3g} V\"", lot_.even(0, 0.6));
    if (has_limit_ && lot_.chance(0.4)) line("mass_transfer = true");
  }

  void setting() {
    const double density =
        lot_.chance(0.85) ? lot_.by_factor(0.1, 10) : lot_.by_factor(1e-4, 1e3);
    const int kind = lot_.whole(0, 2);
    if (kind == 0) line("current_density = \"{:.5g} A/dm2\"", density);
    if (kind == 1)
      line("current = \"{:.5g} A\"", density * 100 * 3 * size_ * size_);
    if (kind == 2) line("voltage = \"{:.5g} V\"", lot_.by_factor(0.05, 12));
    if (kind != 2 && lot_.chance(0.4))
      line("voltage_limit = \"{:.3g} V\"", lot_.by_factor(0.2, 30));
  }

  void supply() {
    if (!rectifiers_) {
      line("[supply]");
      setting();
      if (lot_.chance(0.3))
        line("lead_resistance = \"{:.3g} ohm\"", lot_.by_factor(1e-3, 2));
      return;
    }
    for (int k = 1; k <= 2; ++k) {
      line("[[rectifier]]\nname = \"r{}\"", k);
      line("current = \"{:.5g} A\"",
           lot_.by_factor(0.1, 5) * 100 * size_ * size_);
    }
  }

  void steps() {
    const int count = lot_.chance(0.7) ? 1 : lot_.whole(2, 4);
    for (int k = 0; k < count; ++k) {
      line("[[step]]\nduration = \"{:.4g} min\"",
           lot_.chance(0.9) ? lot_.by_factor(1, 200)
                            : lot_.by_factor(0.01, 1e5));
      if (k > 0 && !plan_ && !axisymmetric_ && lot_.chance(0.6))
        line("flip = true");
      if (plan_ && lot_.chance(0.3))
        line("turn = \"{} deg\"", lot_.whole(-180, 180));
      if (plan_ && lot_.chance(0.08))
        line("turning = {{ positions = {}, dwell = \"30 s\" }}",
             lot_.whole(2, 6));
      if (lot_.chance(0.1))
        line("temperature = \"{} degC\"", lot_.whole(10, 60));
    }
  }

  void target() {
    line("[target]");
    if (lot_.chance(0.7))
      line("thickness = \"{:.3g} um\"", lot_.by_factor(0.1, 100));
    if (lot_.chance(0.3))
      line("contact_margin = {}", mm(size_ * lot_.by_factor(0.01, 0.3)));
    if (lot_.chance(0.4))
      line("burning_current_density = \"{:.3g} A/dm2\"",
           lot_.by_factor(0.5, 50));
    if (lot_.chance(0.3)) line("working_range = [\"0.5 A/dm2\", \"4 A/dm2\"]");
    line("[accuracy]");
    if (lot_.chance(0.3))
      line("tolerance = \"{:.2g} %\"", lot_.by_factor(0.02, 5));
    if (lot_.chance(0.3))
      line("averaging_length = \"{:.3g} mm\"",
           std::clamp(1e3 * size_ * lot_.by_factor(1e-3, 0.1), 1e-3, 10.0));
    if (lot_.chance(0.2)) {
      line("[[probe]]\nname = \"p\"");
      line("at = [{}, {}]", mm(axisymmetric_ ? size_ / 4 : width_ / 2),
           mm(level_ / 2));
    }
  }

  Lot lot_;
  std::string out_;
  double size_ = 0, thin_ = 0;  ///< of the part [m]; thickness over size
  double width_ = 0, height_ = 0, level_ = 0;  ///< of the tank [m]
  bool axisymmetric_ = false, plan_ = false, rectifiers_ = false;
  bool has_depth_ = false, has_limit_ = false;
};

}  // namespace

std::string random_case_text(std::uint64_t seed) { return Writer(seed).text(); }

}  // namespace thinspot::tests
