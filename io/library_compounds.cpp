#include "io/library_compounds.hpp"

#include "io/library.hpp"
#include "io/library_list.hpp"
#include "io/number.hpp"
#include "io/quote.hpp"
#include "mesh/lower_case.hpp"
#include "solver/ions.hpp"

#include <fmt/format.h>

#include <map>

namespace thinspot::io {

namespace {

constexpr Limits kMolarMass{Dimension::molar_mass, "1 g/mol", "1000 g/mol"};
constexpr Limits kShare{Dimension::fraction, "0 %", "100 %"};
constexpr Limits kDensity{Dimension::mass_density, "0.1 g/l", "25 kg/l"};
constexpr Limits kConductivity{Dimension::conductivity, "1e-6 S/m", "1000 S/m"};
constexpr Limits kTemperature{Dimension::temperature, "-20 degC", "110 degC"};
constexpr Limits kPlain{Dimension::fraction, "-1", "10"};

const std::map<std::string_view, solver::Acidity>& acidities() {
  using solver::Acidity;
  static const std::map<std::string_view, Acidity> words{
      {"strong acid", Acidity::strong_acid},
      {"weak acid", Acidity::weak_acid},
      {"acid salt", Acidity::acid_salt},
      {"neutral", Acidity::neutral},
      {"weak base", Acidity::weak_base},
      {"strong base", Acidity::strong_base},
  };
  return words;
}

const std::vector<KeyInfo>& keys() {
  static const std::vector<KeyInfo> all = [] {
    KeyInfo acidity{"acidity", Form::choice, {}, true};
    for (const auto& [word, value] : acidities())
      acidity.choices.push_back(word);
    return std::vector<KeyInfo>{
        {"name", Form::name, {}, true},
        {"spellings", Form::texts},
        {"formula", Form::text, {}, true},
        {"molar_mass", Form::value, kMolarMass, true},
        {"water", Form::whole},
        {"cation", Form::text},
        {"cations", Form::whole},
        {"anion", Form::text},
        {"anions", Form::whole},
        acidity,
        {"metal", Form::text},
        {"contains", Form::texts},
        {"apparent_volume_ml_per_g", Form::factor, kPlain},
        {"solubility", Form::value, kDensity},
        {"strengths", Form::quantities, kShare},
        {"densities", Form::quantities, kDensity},
        {"conductivity_at", Form::quantities, kShare},
        {"conductivity", Form::quantities, kConductivity},
        {"conductivity_temperature", Form::value, kTemperature},
        {"conductivity_source", Form::text},
        {"like", Form::text},
        {"spread", Form::value, kShare},
        {"per_degree", Form::quantity, kShare},
        {"source", Form::text, {}, true},
    };
  }();
  return all;
}

std::vector<double> numbers(TableReader& t, std::string_view key) {
  std::vector<double> result;
  for (const solver::Quantity& q :
       t.all_quantities(key).value_or(std::vector<solver::Quantity>{}))
    result.push_back(q.value);
  return result;
}

int count(TableReader& t, std::string_view key) {
  return static_cast<int>(t.whole(key).value_or(0));
}

void check(TableReader& t, const solver::Compound& c) {
  for (const auto& [key, ion] :
       {std::pair("cation", &c.cation), std::pair("anion", &c.anion)})
    if (!ion->empty() && !solver::find_ion(*ion))
      t.wrong(key, in_quotes(*ion) + " is not among the known ions",
              "one of solver/ions.cpp");
  if (c.strengths.size() != c.densities.size())
    t.wrong("densities", "are not as many as strengths", "one for each");
  if (c.table.mass_fraction.size() != c.table.conductivity.size())
    t.wrong("conductivity", "is not as long as conductivity_at",
            "one for each");
  const bool conducts = !c.table.conductivity.empty() || !c.like.empty();
  if (!c.cation.empty() && !conducts)
    t.missing("conductivity", "give a table, or what it is like");
  if (conducts && c.spread <= 0)
    t.missing("spread", "say how sure the conductivity is");
}

solver::Compound read_compound(TableReader& t) {
  solver::Compound c;
  c.name = t.text("name").value_or("");
  c.spellings = t.texts("spellings").value_or(c.spellings);
  c.formula = t.text("formula").value_or("");
  c.molar_mass = t.value("molar_mass").value_or(0);
  c.water = count(t, "water");
  c.cation = t.text("cation").value_or("");
  c.cations = count(t, "cations");
  c.anion = t.text("anion").value_or("");
  c.anions = count(t, "anions");
  if (const auto word = t.text("acidity")) c.acidity = acidities().at(*word);
  c.metal = t.text("metal").value_or("");
  c.contains = t.texts("contains").value_or(c.contains);
  if (const auto given = t.factor("apparent_volume_ml_per_g"))
    c.apparent_volume = 1e-3 * *given;
  c.solubility = t.value("solubility");
  c.strengths = numbers(t, "strengths");
  c.densities = numbers(t, "densities");
  c.table.mass_fraction = numbers(t, "conductivity_at");
  c.table.conductivity = numbers(t, "conductivity");
  if (const auto given = t.value("conductivity_temperature"))
    c.table.temperature = *given;
  c.table.source = t.text("conductivity_source").value_or("");
  c.like = t.text("like").value_or("");
  c.spread = t.value("spread").value_or(0);
  if (const auto given = t.quantity("per_degree")) c.per_kelvin = *given;
  c.source = t.text("source").value_or("");
  check(t, c);
  return c;
}

std::string plain(const std::string& written) {
  std::string text = mesh::lower_case(std::string(trimmed(written)));
  for (auto at = text.find("sulph"); at != std::string::npos;
       at = text.find("sulph", at))
    text.replace(at, 5, "sulf");
  return text;
}

}  // namespace

std::vector<solver::Compound> read_compounds(
    const std::filesystem::path& folder) {
  std::vector<solver::Compound> all;
  read_library_list(folder / "substances.toml", "substance", keys(),
                    [&](TableReader& t) { all.push_back(read_compound(t)); });
  return all;
}

const std::vector<solver::Compound>& library_compounds() {
  static const std::vector<solver::Compound> all =
      read_compounds(library_folder());
  return all;
}

WareName ware_name(const std::string& written) {
  WareName result{plain(written), {}};
  if (!result.name.ends_with('%')) return result;
  const std::string head(
      trimmed(std::string_view(result.name).substr(0, result.name.size() - 1)));
  const auto space = head.find_last_of(' ');
  if (space == std::string::npos) return result;
  const std::string number = head.substr(space + 1);
  const NumberStart read = read_number(number);
  if (read.length != number.size()) return result;
  result.name = std::string(trimmed(head.substr(0, space)));
  result.strength = read.number / 100;
  return result;
}

Ware find_ware(const std::vector<solver::Compound>& all,
               const std::string& written) {
  const WareName wanted = ware_name(written);
  for (const solver::Compound& c : all) {
    if (plain(c.name) == wanted.name) return {&c, wanted.strength};
    for (const std::string& spelling : c.spellings) {
      const WareName own = ware_name(spelling);
      if (own.name == wanted.name)
        return {&c, wanted.strength ? wanted.strength : own.strength};
    }
  }
  return {};
}

std::vector<std::string> ware_names(const std::vector<solver::Compound>& all) {
  std::vector<std::string> names;
  for (const solver::Compound& c : all) {
    names.push_back(c.name);
    for (const std::string& spelling : c.spellings)
      names.push_back(ware_name(spelling).name);
  }
  return names;
}

}  // namespace thinspot::io
