// The tests, and with --page the table of what they found.
#define CATCH_CONFIG_RUNNER
#include "table_page.hpp"

#include <catch2/catch.hpp>

#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>

namespace {

std::string content(const std::filesystem::path& file) {
  std::ifstream in(file);
  if (!in) throw std::runtime_error("cannot read " + file.string());
  return {std::istreambuf_iterator<char>(in), {}};
}

/// @returns false where the page differs from the documented one.
bool write_and_compare(const std::string& page, const std::string& documented,
                       const std::string& verified) {
  using namespace thinspot::tests;
  const std::string text = table_page(recorded(), verified);
  std::ofstream out(page);
  out << text;
  out.close();
  if (!out) throw std::runtime_error("cannot write " + page);
  if (documented.empty()) return true;
  const auto differences = table_differences(
      read_table_page(content(documented)), read_table_page(text));
  for (const std::string& line : differences) std::cerr << line << '\n';
  if (!differences.empty())
    std::cerr << documented
              << " is out of date; tests/verification/write_table writes it\n";
  return differences.empty();
}

}  // namespace

int main(int argc, char** argv) {
  std::string page, documented, verified = "Not verified: a run of the tests";
  Catch::Session session;
  using Catch::clara::Opt;
  session.cli(session.cli() |
              Opt(page, "file")["--page"]("write the table as Markdown") |
              Opt(documented,
                  "file")["--documented"]("compare the table with this page") |
              Opt(verified, "text")["--verified"]("head line of the table"));
  if (const int wrong = session.applyCommandLine(argc, argv)) return wrong;
  const int failed = session.run();
  if (failed || page.empty()) return failed;
  try {
    return write_and_compare(page, documented, verified) ? 0 : 1;
  } catch (const std::exception& error) {
    std::cerr << error.what() << '\n';
    return 1;
  }
}
