#include "io/cli/options.hpp"
#include "io/cli/terminal.hpp"
#include "io/cli/verb.hpp"
#include "io/nearest.hpp"
#include "io/output_folder.hpp"
#include "io/phrases.hpp"
#include "io/quote.hpp"
#include "io/starter_case.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <optional>

namespace thinspot::io::cli {

namespace {

namespace fs = std::filesystem;

const std::vector<Option> options = {{"help", "", "this text"}};

std::string more() {
  std::string text =
      "FILE is SHAPE.toml in this folder where it is left out; - prints the "
      "case.\nNothing is ever overwritten.\n\n";
  std::size_t wide = 0;
  for (const std::string& name : starter_names())
    wide = std::max(wide, name.size() + 1);
  for (const std::string& name : starter_names())
    text += fmt::format("  {:<{}} {}\n", name, wide, starter_title(name));
  return text;
}

/// "spoon-2.toml" where "spoon.toml" is taken.
fs::path free_name(const fs::path& taken) {
  for (int number = 2;; ++number) {
    fs::path other = taken;
    other.replace_filename(fmt::format("{}-{}{}", taken.stem().string(), number,
                                       taken.extension().string()));
    std::error_code error;
    if (!fs::exists(fs::symlink_status(other, error))) return other;
  }
}

/// As a shell takes it for one word.
std::string shell_word(const std::string& text) {
  const bool plain = std::all_of(text.begin(), text.end(), [](char c) {
    return std::isalnum(static_cast<unsigned char>(c)) ||
           std::strchr("_-./+,", c) || static_cast<unsigned char>(c) > 127;
  });
  if (plain) return text;
  std::string quoted = "'";
  for (char c : text) quoted += c == '\'' ? "'\\''" : std::string(1, c);
  return quoted + "'";
}

InputError taken(const std::string& shape, const fs::path& file,
                 const fs::path& case_file) {
  return {file.string(), "is there already, and nothing is overwritten",
          fmt::format("write: thinspot new {} {}", shape,
                      shell_word(free_name(case_file).string()))};
}

[[noreturn]] void cannot_write(const fs::path& file, int reason) {
  throw OutputError(fmt::format("{}: cannot write it: {}", file.string(),
                                std::strerror(reason)));
}

/// Files that are written together: all of them, or none.
class NewFiles {
 public:
  NewFiles() = default;
  NewFiles(const NewFiles&) = delete;
  NewFiles& operator=(const NewFiles&) = delete;
  ~NewFiles() {
    std::error_code ignored;
    if (!kept_)
      for (const fs::path& file : made_) fs::remove(file, ignored);
  }

  /// @returns false where a file of that name is there.
  /// @throws OutputError
  bool write(const fs::path& file, const std::string& text) {
    // "x": the system itself refuses to open what is there.
    std::FILE* out = std::fopen(file.c_str(), "wx");
    if (!out && errno == EEXIST) return false;
    if (!out) cannot_write(file, errno);
    made_.push_back(file);
    const bool whole =
        std::fwrite(text.data(), 1, text.size(), out) == text.size();
    const int reason = errno;
    if (std::fclose(out) != 0) cannot_write(file, errno);
    if (!whole) cannot_write(file, reason);
    return true;
  }

  void keep() { kept_ = true; }

 private:
  std::vector<fs::path> made_;
  bool kept_ = false;
};

std::string checked_shape(const std::string& word) {
  const std::vector<std::string> names = starter_names();
  if (std::find(names.begin(), names.end(), word) != names.end()) return word;
  const auto near = nearest(word, names);
  throw InputError(in_quotes(word), "is not a shape",
                   near ? "nearest: " + *near : "it takes " + with_or(names));
}

/// The name goes into comments and, for a drawing, into a text of the case.
fs::path checked_file(const std::string& shape, const CommandLine& line) {
  const std::string word =
      line.operands.size() > 1 ? line.operands[1] : shape + ".toml";
  if (!is_printable(word, 4096) ||
      word.find_first_of("\"\\") != std::string::npos)
    throw InputError(in_quotes(word), "cannot be the name of a case file",
                     "letters, digits and - _ . are fine, as in my-part.toml");
  fs::path file = word;
  if (word == "-") return file;
  std::error_code error;
  if (fs::is_directory(file, error)) file /= shape + ".toml";
  if (file.extension() == ".csv")
    throw InputError(in_quotes(word), "is the name of a drawing",
                     "a case file's name ends in .toml");
  return file;
}

std::string report(const std::string& shape, const fs::path& file,
                   const std::optional<fs::path>& drawing) {
  const std::string name = shell_word(file.string());
  const fs::path results = default_output_folder(file);
  std::string text =
      fmt::format("Wrote {}: {}.\n", file.string(), starter_title(shape));
  if (drawing)
    text += fmt::format("Wrote {}: the drawing that it cuts out.\n",
                        drawing->string());
  text += fmt::format(
      "It can be solved as it stands. Next:\n\n"
      "  thinspot check {0}\n  thinspot solve {0}\n\n"
      "Then open {1} in a browser, and look at the picture.\n"
      "For your own part open {2} in an editor:\nsizes first, under "
      "[part]{3}.\n",
      name, (results / "report.html").string(), file.string(),
      drawing ? ", or the points in " + drawing->string() : "");
  return text;
}

int make_new(const std::vector<std::string>& arguments) {
  const CommandLine line = parse_options(new_verb.name, options, arguments);
  if (line.has("help")) {
    print(stdout, help_of(new_verb));
    return 0;
  }
  if (line.operands.empty())
    throw InputError(
        "", "no shape is given",
        "write: thinspot new SHAPE; SHAPE is " + with_or(starter_names()));
  if (line.operands.size() > 2)
    throw InputError(line.operands[2], "is one file too many",
                     "one case file at a time");
  const std::string shape = checked_shape(line.operands[0]);
  const fs::path file = checked_file(shape, line);
  if (file == "-") {
    if (needs_drawing(shape))
      throw InputError("-", "an outline's case has a drawing beside it",
                       "give a file name, as in my-part.toml");
    print(stdout, starter_case(shape, shape + ".toml", ""));
    return 0;
  }
  std::optional<fs::path> drawing;
  if (needs_drawing(shape)) drawing = fs::path(file).replace_extension(".csv");
  NewFiles files;
  if (!files.write(file,
                   starter_case(shape, shell_word(file.filename().string()),
                                drawing ? drawing->filename().string() : "")))
    throw taken(shape, file, file);
  if (drawing && !files.write(*drawing, starter_drawing()))
    throw taken(shape, *drawing, file);
  files.keep();
  print(stdout, report(shape, file, drawing));
  return 0;
}

}  // namespace

const Verb new_verb = {
    "new",
    "SHAPE [FILE]",
    "write a commented starter case for a part of that shape",
    options,
    more,
    make_new};

}  // namespace thinspot::io::cli
