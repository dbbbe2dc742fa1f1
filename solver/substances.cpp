#include "solver/substances.hpp"

#include <array>
#include <utility>
#include "mesh/lower_case.hpp"

namespace thinspot::solver {

namespace {

void drop(std::string& text, const std::string& piece) {
  for (std::size_t at = text.find(piece); at != std::string::npos;
       at = text.find(piece))
    text.erase(at, piece.size());
}

/// All that names the solution, without what it is said to be free of.
std::string names_of(const Solution& s) {
  std::string text = mesh::lower_case(s.name + " " + s.entry);
  for (const Substance& part : s.made_of)
    text += " " + mesh::lower_case(part.name);
  for (const char* absent :
       {"non-cyanide", "noncyanide", "cyanide-free", "no cyanide",
        "without cyanide", "chloride-free", "no chloride", "without chloride",
        "without acid", "non-acid"})
    drop(text, absent);
  return text;
}

constexpr std::array<std::pair<const char*, const char*>, 24> kWords{{
    {"cyanid", "cyanide"},      {"chlorid", "chloride"},
    {"watts", "chloride"},      {"wood", "chloride"},
    {"hydrochlor", "chloride"}, {"muriatic", "chloride"},
    {"table salt", "chloride"}, {"acetat", "acetate"},
    {"acetic", "acetate"},      {"vinegar", "acetate"},
    {"acetic", "acid"},         {"vinegar", "acid"},
    {"acid", "acid"},           {"alkalin", "alkali"},
    {"hydroxid", "alkali"},     {"stannat", "alkali"},
    {"pyrophosph", "alkali"},   {"zincate", "alkali"},
    {"ammoni", "ammonium"},     {"peroxid", "peroxide"},
    {"fluor", "fluoride"},      {"fluob", "fluoride"},
    {"chromat", "chromate"},    {"chromic", "chromate"},
}};

/// Of solutions whose metal tells more than its name.
void add_by_metal(const std::string& metal, std::set<std::string>& found) {
  found.insert(plain_metal(metal));
  if (metal == "copper(I)") found.insert({"cyanide", "alkali"});
  if (metal == "tin(IV)") found.insert("alkali");
  if (metal == "chromium(VI)") found.insert({"chromate", "acid"});
}

}  // namespace

std::string plain_metal(const std::string& metal) {
  return metal.substr(0, metal.find('('));
}

std::set<std::string> substances_in(const Solution& s) {
  std::set<std::string> found(s.contains.begin(), s.contains.end());
  const std::string text = names_of(s);
  for (const auto& [word, substance] : kWords)
    if (text.find(word) != std::string::npos) found.insert(substance);
  if (!s.metal.name.empty()) add_by_metal(s.metal.name, found);
  // Cyanide asks for alkali; what is neither is at least weakly acid.
  if (found.contains("cyanide")) found.insert("alkali");
  if (!found.contains("alkali")) found.insert("acid");
  return found;
}

bool composition_known(const Solution& s) {
  if (!s.contains.empty() || !s.made_of.empty()) return true;
  const std::string text = names_of(s);
  for (const char* word : {"chlorid", "watts", "wood", "sulfat", "sulphat",
                           "sulfam", "sulpham", "acid copper", "acetat"})
    if (text.find(word) != std::string::npos) return true;
  return false;
}

}  // namespace thinspot::solver
