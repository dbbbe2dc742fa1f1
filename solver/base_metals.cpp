#include "solver/base_metals.hpp"

#include <algorithm>
#include <cctype>

namespace thinspot::solver {

namespace {

/// Lower-case words with one blank before and after each.
std::string as_words(const std::string& text) {
  std::string words = " ";
  for (const char ch : text) {
    const auto code = static_cast<unsigned char>(ch);
    if (std::isalnum(code) || code >= 0x80 || ch == '/')
      words += static_cast<char>(std::tolower(code));
    else if (words.back() != ' ')
      words += ' ';
  }
  if (words.back() != ' ') words += ' ';
  return words;
}

template <class List>
auto named(const List& list, const std::string& name) {
  const auto hit = std::find_if(list.begin(), list.end(),
                                [&](const auto& x) { return x.name == name; });
  return hit == list.end() ? nullptr : &*hit;
}

bool lists(const std::vector<std::string>& list, const std::string& name) {
  return std::find(list.begin(), list.end(), name) != list.end();
}

}  // namespace

const BaseMetal* find_base(const BaseMetals& all, const std::string& text) {
  const std::string said = as_words(text);
  const BaseMetal* best = nullptr;
  std::size_t length = 2;  // of two blanks, which every text has
  const auto look = [&](const BaseMetal& metal, const std::string& name) {
    const std::string words = as_words(name);
    if (words.size() <= length || said.find(words) == std::string::npos) return;
    best = &metal;
    length = words.size();
  };
  for (const BaseMetal& metal : all.metals) {
    look(metal, metal.name);
    for (const std::string& alias : metal.aliases) look(metal, alias);
  }
  return best;
}

const Task* find_task(const BaseMetals& all, const std::string& name) {
  return named(all.tasks, name);
}

const Coating* find_coating(const BaseMetals& all, const std::string& name) {
  return named(all.coatings, name);
}

const Route* find_route(const BaseMetals& all, const std::string& base,
                        const std::string& coating) {
  const Route* any = nullptr;
  for (const Route& route : all.routes) {
    if (route.base != base) continue;
    if (lists(route.coatings, coating)) return &route;
    if (lists(route.coatings, "any")) any = &route;
  }
  return any;
}

}  // namespace thinspot::solver
