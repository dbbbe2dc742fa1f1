#include "io/case_file.hpp"

#include "io/case_reading.hpp"
#include "io/override.hpp"
#include "io/quote.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

void apply_overrides(Node& root, const std::vector<std::string>& overrides,
                     Findings& findings) {
  for (const std::string& text : overrides) {
    try {
      apply_override(root, text);
    } catch (const InputError& error) {
      for (Problem p : error.problems()) {
        findings.found_at(p.key, 0);
        findings.add(p.key, p.wrong, p.mend);
      }
    }
  }
}

std::string title_from(const std::filesystem::path& file) {
  const std::string stem = file.stem().string();
  return is_printable(stem, 200) ? stem : "untitled";
}

CaseFile case_from(Node root, const std::filesystem::path& file,
                   const std::vector<std::string>& overrides) {
  CaseFile result;
  result.path = file.string();
  result.content.title = title_from(file);
  result.content.file = result.path;
  Findings findings(result.path);
  apply_overrides(root, overrides, findings);

  const std::filesystem::path folder = file.parent_path();
  CaseReading r{root, findings, result.content, folder.empty() ? "." : folder};
  check_tables(r);
  read_head(r);
  read_tank(r);
  read_solution(r);
  read_rack(r);
  read_part(r);
  derive_limiting_current(r);
  read_wires(r);
  read_clips(r);
  hang_on_rack(r);
  read_rectifiers(r);
  read_anodes(r);
  read_shields(r);
  read_thieves(r);
  read_supply(r);
  read_cathode(r);
  settle_efficiency(r);
  read_floating(r);
  read_masks(r);
  read_steps(r);
  read_target(r);
  read_accuracy(r);
  read_probes(r);
  read_correlated(r);
  read_plan(r);
  findings.throw_if_any();
  result.lines = findings.lines();
  return result;
}

}  // namespace

CaseFile read_case(const std::filesystem::path& file,
                   const std::vector<std::string>& overrides) {
  return case_from(read_document(file), file, overrides);
}

CaseFile read_case(const Node& document, const std::filesystem::path& file,
                   const std::vector<std::string>& overrides) {
  return case_from(document, file, overrides);
}

CaseFile read_case_text(std::string_view text,
                        const std::filesystem::path& file) {
  return case_from(parse_document(text, file.string()), file, {});
}

InputError located(const InputError& error, const CaseFile& file) {
  std::vector<Problem> problems = error.problems();
  for (Problem& p : problems)
    if (p.place.empty()) p.place = place_of(p.key, file.path, file.lines);
  return InputError(std::move(problems));
}

}  // namespace thinspot::io
