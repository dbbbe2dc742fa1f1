#include "io/cli/manual.hpp"

#include "io/cli/verbs.hpp"
#include "io/program.hpp"

#include <fmt/format.h>

#include <sstream>

namespace thinspot::io::cli {

namespace {

constexpr std::string_view kCautions =
    "Plating can hurt. Salts irritate and many are poisonous; nickel makes "
    "skin\n"
    "allergic for good; solutions give off hydrogen, some chlorine; stainless\n"
    "anodes dissolve as chromium(VI), which causes cancer; mains adapters "
    "kill;\n"
    "used solutions are hazardous waste. Heed the safety data sheets, local\n"
    "codes and licensed practice; the program names what applies to a case "
    "and\n"
    "stands in for none of them. Nothing made so is for food.\n";

/// As roff shows it unchanged: no escape, and no dot or quote that begins a
/// line. A dash that is typed stays one.
std::string plain(std::string_view text) {
  std::string out;
  bool begins = true;
  for (char c : text) {
    if (begins && (c == '.' || c == '\'')) out += "\\&";
    if (c == '\\')
      out += "\\e";
    else if (c == '-')
      out += "\\-";
    else
      out += c;
    begins = c == '\n';
  }
  return out;
}

/// Words with one blank between: what was broken into lines for a terminal.
std::string filled(std::string_view text) {
  std::istringstream words{std::string(text)};
  std::string out;
  for (std::string word; words >> word;) out += (out.empty() ? "" : " ") + word;
  return plain(out);
}

/// Lines as they stand.
std::string lines(std::string_view text) {
  return fmt::format(".PP\n.nf\n{}.fi\n", plain(text));
}

std::string option(const Option& o) {
  return fmt::format(
      ".TP\n\\fB\\-\\-{}\\fR{}\n{}\n", plain(o.name),
      o.value.empty() ? "" : fmt::format(" \\fI{}\\fR", plain(o.value)),
      filled(o.help));
}

std::string section_of(const Verb& verb) {
  std::string text =
      fmt::format(".SS thinspot {}\n{}.\n", verb.name, filled(verb.purpose));
  for (const Option& o : verb.options) text += option(o);
  return text + lines(verb.more());
}

}  // namespace

std::string manual_page() {
  // No date: the same program, the same page.
  std::string page = fmt::format(
      ".TH THINSPOT 1 \"\" \"thinspot {}\" \"User commands\"\n"
      ".SH NAME\nthinspot \\- how evenly a small part will plate\n"
      ".SH SYNOPSIS\n",
      program_version());
  for (const Verb* verb : all_verbs())
    page += fmt::format(".HP 4\n\\fBthinspot {}\\fR {}\n", verb->name,
                        filled(verb->use));
  page += fmt::format(".SH DESCRIPTION\n{}", plain(program_purpose));
  page += ".SH VERBS\n";
  for (const Verb* verb : all_verbs()) page += section_of(*verb);
  page += fmt::format(".SH EXIT STATUS\n{}", lines(exit_statuses));
  page += fmt::format(".SH CAUTIONS\n{}", plain(kCautions));
  page +=
      ".SH FILES\n"
      "Pages named docs/... lie in share/doc/thinspot where the program is\n"
      "installed, metals and solutions in share/thinspot/library.\n"
      ".SH SEE ALSO\n\\fBthinspot \\fIVERB\\fB \\-\\-help\\fR\n";
  return page;
}

}  // namespace thinspot::io::cli
