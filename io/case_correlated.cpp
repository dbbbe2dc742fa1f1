#include "io/case_reading.hpp"
#include "io/nearest.hpp"
#include "io/phrases.hpp"
#include "io/quote.hpp"
#include "solver/correlation.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::io {

namespace {

/// Quantities of the case by their addresses.
struct Known {
  std::vector<std::string> all, uncertain;
};

bool holds(const std::vector<std::string>& keys, const std::string& key) {
  return std::find(keys.begin(), keys.end(), key) != keys.end();
}

Known quantities_of(solver::Case c) {
  Known known;
  for_each_quantity(c, [&](const std::string& key, const solver::Quantity& q) {
    known.all.push_back(key);
    if (q.plus_minus > 0) known.uncertain.push_back(key);
  });
  return known;
}

/// What is meant by a key that is none.
std::string mend_for(const std::string& key, const Known& known) {
  if (const auto near = nearest(key, known.all))
    return fmt::format("is \"{}\" meant?", *near);
  constexpr std::size_t kMost = 8;
  std::vector<std::string> some = known.uncertain;
  const bool more = some.size() > kMost;
  if (more) some.resize(kMost);
  return some.empty() ? "nothing is uncertain here: leave the pair out"
                      : fmt::format("uncertain here {} {}{}",
                                    some.size() == 1 ? "is" : "are",
                                    with_or(some), more ? " and more" : "");
}

bool is_sound(TableReader& t, const std::vector<std::string>& of,
              const Known& known) {
  if (of.size() != 2 || of[0] == of[1]) {
    t.wrong("of",
            of.size() == 2 ? "names one quantity twice"
                           : fmt::format("names {} quantities", of.size()),
            "two that differ, as in of = [\"solution.conductivity\", "
            "\"cathode.polarization_resistance\"]");
    return false;
  }
  for (const std::string& key : of) {
    if (holds(known.uncertain, key)) continue;
    if (holds(known.all, key))
      t.wrong("of", key + " is taken as exact here",
              "give it a tolerance, as in \"18 S/m +- 2 S/m\", or leave the "
              "pair out");
    else
      t.wrong("of",
              in_quotes(key) + " is no quantity that can be uncertain here",
              mend_for(key, known));
    return false;
  }
  return true;
}

bool same_pair(const solver::Correlated& a, const solver::Correlated& b) {
  return std::is_permutation(a.of.begin(), a.of.end(), b.of.begin());
}

/// Notes pairs that cannot all hold, at the last of each such group. Only all
/// of them together tell: what is left out counts as 0.
void check_possible(const solver::Case& c, std::vector<TableReader>& tables,
                    const std::vector<std::size_t>& table_of) {
  for (const solver::InputGroup& group : solver::input_groups(c)) {
    if (solver::is_possible(group)) continue;
    for (std::size_t k = c.correlated.size(); k-- > 0;) {
      if (!holds(group.keys, c.correlated[k].of[0])) continue;
      tables[table_of[k]].wrong(
          "by",
          fmt::format("{:g} contradicts the other pairs: no quantities can go "
                      "together like that",
                      c.correlated[k].by),
          "give all pairs as one fit found them; a pair left out counts as 0");
      break;
    }
  }
}

}  // namespace

void read_correlated(CaseReading& r) {
  // Where something else is wrong it is not known what there is.
  const bool sound = r.findings.empty();
  const Known known = sound ? quantities_of(r.content) : Known{};
  std::vector<TableReader> tables = open_tables(r, "correlated");
  std::vector<std::size_t> table_of;  // of each pair
  for (std::size_t k = 0; k < tables.size(); ++k) {
    TableReader& t = tables[k];
    const auto of = t.texts("of");
    const auto by = t.factor("by");
    if (!of || !by) continue;
    if (std::abs(*by) >= 1) {
      t.wrong("by", fmt::format("{:g} would make the two one", *by),
              "between -1 and 1, both left out");
      continue;
    }
    if (!sound || !is_sound(t, *of, known)) continue;
    const solver::Correlated pair{{(*of)[0], (*of)[1]}, *by};
    auto& pairs = r.content.correlated;
    if (std::any_of(pairs.begin(), pairs.end(), [&](const auto& other) {
          return same_pair(pair, other);
        })) {
      t.wrong(
          "of",
          fmt::format("{} and {} are paired already", pair.of[0], pair.of[1]),
          "give each pair once");
      continue;
    }
    pairs.push_back(pair);
    table_of.push_back(k);
  }
  if (r.findings.empty()) check_possible(r.content, tables, table_of);
}

}  // namespace thinspot::io
