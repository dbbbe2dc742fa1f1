#include "io/thickness_classes.hpp"

#include "io/library.hpp"
#include "io/library_list.hpp"

#include <set>

namespace thinspot::io {

namespace {

KeyInfo must(std::string_view name) { return {name, Form::text, {}, true}; }

const std::vector<KeyInfo>& class_keys() {
  static const std::vector<KeyInfo> keys{
      must("standard"),
      must("title"),
      must("edition"),
      must("class"),
      must("metal"),
      must("on"),
      {"thickness", Form::value, {Dimension::length, "0.1 um", "1 mm"}, true},
      must("service"),
      must("source")};
  return keys;
}

}  // namespace

std::vector<ThicknessClass> read_thickness_classes(
    const std::filesystem::path& folder) {
  const std::filesystem::path file = folder / "thickness_classes.toml";
  const Node root = read_document(file);
  Findings findings(file.string());
  refuse_others(root, {"class"}, findings);
  std::vector<ThicknessClass> all;
  std::set<std::string> seen;
  for_each_table(root, "class", class_keys(), findings, [&](TableReader& t) {
    all.push_back({text_or_empty(t, "standard"), text_or_empty(t, "title"),
                   text_or_empty(t, "edition"), text_or_empty(t, "class"),
                   text_or_empty(t, "metal"), text_or_empty(t, "on"),
                   t.value("thickness").value_or(0),
                   text_or_empty(t, "service"), text_or_empty(t, "source")});
    if (!seen.insert(all.back().standard + ", " + all.back().name).second)
      t.wrong("class", "stands there twice", "give each class once");
  });
  findings.throw_if_any();
  return all;
}

const std::vector<ThicknessClass>& library_classes() {
  static const std::vector<ThicknessClass> all =
      read_thickness_classes(library_folder());
  return all;
}

}  // namespace thinspot::io
