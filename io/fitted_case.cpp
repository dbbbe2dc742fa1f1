#include "io/fitted_case.hpp"

#include "io/derived_case.hpp"
#include "io/document.hpp"
#include "io/keyed_quantity.hpp"
#include "io/override.hpp"
#include "io/quantity_text.hpp"
#include "io/quote.hpp"
#include "io/toml_value.hpp"
#include "mesh/errors.hpp"
#include "solver/correlation.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace thinspot::io {

namespace {

using solver::Fit;
using solver::FittedValue;
using solver::Quantity;

/// A half width may not reach down to nothing of what is positive.
constexpr double kWidest = 0.95;
constexpr double kNearer = 0.9999;
/// Of a value, what seven digits may put off.
constexpr double kRounding = 1e-5;

/// What is written of a value.
struct Written {
  std::string key;
  Quantity q;
};

Quantity worth_writing(const FittedValue& v) {
  Quantity q{v.value, v.plus_minus};
  if (v.key == "solution.efficiency") q.value = std::min(q.value, 1.0);
  q = rounded_quantity(q);
  if (!solver::may_be_negative(v.key) && q.value > 0)
    q.plus_minus = std::min(q.plus_minus, kWidest * q.value);
  return q;
}

std::string set_text(const Written& w) {
  return fmt::format("{}={}", w.key, keyed_quantity_text(w.key, w.q));
}

/// Sets it where the file has a key for it.
bool set_in(Node& root, const Written& w) {
  Node tried = root;
  try {
    apply_override(tried, set_text(w));
  } catch (const InputError&) {
    return false;
  }
  root = std::move(tried);
  return true;
}

/// The density at which a slope holds goes with it, where it was assumed too.
void keep_density(Node& root, const solver::Case& c) {
  const Node* cathode = root.find("cathode");
  if (!cathode || !cathode->find("polarization_resistance")) return;
  if (c.cathode.at && !cathode->find("polarization_at"))
    apply_override(
        root, "cathode.polarization_at=" + density_text({*c.cathode.at, 0}));
}

bool has(const std::vector<Written>& all, const std::string& key) {
  return std::any_of(all.begin(), all.end(),
                     [&](const Written& w) { return w.key == key; });
}

/// Of values that the file holds, or that the fit left alone.
std::vector<solver::Correlated> pairs_among(const Fit& fit,
                                            const std::vector<Written>& all) {
  const auto stands = [&](const std::string& key) {
    return has(all, key) ||
           std::none_of(fit.values.begin(), fit.values.end(),
                        [&](const FittedValue& v) { return v.key == key; });
  };
  std::vector<solver::Correlated> pairs;
  for (const solver::Correlated& p : fit.pairs)
    if (stands(p.of[0]) && stands(p.of[1])) pairs.push_back(p);
  return pairs;
}

/// A little nearer to 0 than it is: rounded, the matrix of all stays one that
/// quantities can have.
double worth_writing(double correlation) {
  return std::round(correlation * kNearer * 1e6) / 1e6;
}

void put_pairs(Node& root, const std::vector<solver::Correlated>& pairs) {
  drop_key(root, "correlated");
  if (pairs.empty()) return;
  Node list;
  list.kind = Node::Kind::list;
  for (const solver::Correlated& p : pairs) {
    Node element = table_node();
    put_key(element, "of", texts_node({p.of[0], p.of[1]}));
    put_key(element, "by", number_node(worth_writing(p.by)));
    list.items.push_back(std::move(element));
  }
  put_key(root, "correlated", std::move(list));
}

std::string named(const std::string& file, const char* otherwise) {
  return is_printable(file, 200) ? file : otherwise;
}

std::string head(const DrawnCase& drawn, const Fit& fit,
                 const std::string& readings) {
  return fmt::format(
      "{}fit from {} and {} readings in {}.\n"
      "# A line that the fit changed ends with what it was.\n\n",
      kMadeBy, named(drawn.file.filename().string(), "a case file"),
      fit.readings.size(), named(readings, "a table"));
}

/// Tables of the top level with their keys; what belongs to one of several of a
/// kind as a comment, since only its own table may have it.
std::string fragment_of(const std::vector<Written>& written,
                        const std::vector<solver::Correlated>& pairs,
                        const Fit& fit, const std::string& readings) {
  std::string text =
      fmt::format("# Fitted to {} readings in {}. In place of the same keys.\n",
                  fit.readings.size(), named(readings, "a table"));
  std::map<std::string, std::string> tables;
  std::string others;
  for (const Written& w : written) {
    const auto dot = w.key.find('.');
    const auto last = w.key.rfind('.');
    const std::string line =
        fmt::format("{} = \"{}\"\n", w.key.substr(last + 1),
                    keyed_quantity_text(w.key, w.q));
    if (dot == last)
      tables[w.key.substr(0, dot)] += line;
    else
      others += fmt::format("# under {}: {}", w.key.substr(0, last), line);
  }
  if (tables.contains("cathode") && fit.stated.cathode.at &&
      has(written, "cathode.polarization_resistance"))
    tables["cathode"] += fmt::format("polarization_at = \"{}\"\n",
                                     density_text({*fit.stated.cathode.at, 0}));
  for (const auto& [name, lines] : tables)
    text += fmt::format("\n[{}]\n{}", name, lines);
  if (!pairs.empty())
    text +=
        "\n# Errors of these go together; without it they would count "
        "twice.\n";
  for (const solver::Correlated& p : pairs)
    text += fmt::format("[[correlated]]\nof = [\"{}\", \"{}\"]\nby = {}\n",
                        p.of[0], p.of[1], worth_writing(p.by));
  if (!others.empty()) text += "\n" + others;
  return text;
}

void check_reading(const DrawnCase& drawn, const std::string& text,
                   const std::vector<Written>& written) {
  solver::Case read = read_back(drawn, text);
  const auto close = [](double a, double b) {
    return std::abs(a - b) <= kRounding * std::max(std::abs(a), std::abs(b));
  };
  for_each_quantity(read, [&](const std::string& key, Quantity& q) {
    for (const Written& w : written)
      if (w.key == key &&
          (!close(w.q.value, q.value) || !close(w.q.plus_minus, q.plus_minus)))
        cannot_write(drawn, key + " would read otherwise than fitted");
  });
}

}  // namespace

FittedCase fitted_case(const DrawnCase& drawn, const Fit& fit,
                       const std::string& readings) {
  FittedCase result;
  const std::string_view own = own_text(drawn.text);
  const Node from = parse_document(own, drawn.file.string());
  Node to = overridden(from, drawn.overrides);
  std::vector<Written> written;
  for (const FittedValue& v : fit.values) {
    if (v.given_up) continue;
    const Written w{v.key, worth_writing(v)};
    // A table of efficiencies is no one number.
    const bool of_table = v.key == "solution.efficiency" &&
                          !fit.stated.solution.efficiency_table.empty();
    if (!of_table && set_in(to, w))
      written.push_back(w);
    else
      result.unwritten.push_back(v.key);
  }
  keep_density(to, fit.stated);
  const auto pairs = pairs_among(fit, written);
  put_pairs(to, pairs);
  check_reading(drawn, checked_text(drawn, own, from, to), written);
  result.drawings = gather_drawings(to, drawn.file.parent_path());
  result.text = head(drawn, fit, readings) + checked_text(drawn, own, from, to);
  result.fragment = fragment_of(written, pairs, fit, readings);
  return result;
}

}  // namespace thinspot::io
