#include "io/case_reading.hpp"

#include "io/quote.hpp"
#include "io/trade_units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <system_error>

namespace thinspot::io {

namespace {

namespace fs = std::filesystem;

constexpr double kLeast = 1e-6, kMost = 10;  // as other lengths [m]

bool is_within(const fs::path& file, const fs::path& folder) {
  return std::mismatch(folder.begin(), folder.end(), file.begin(), file.end())
             .first == folder.end();
}

/// A case that came from somebody else must not read about in the disk: its
/// drawings lie in its own folder or below. What the user names on the command
/// line may lie anywhere.
/// @returns nullopt where the path leads elsewhere.
std::optional<fs::path> file_in_folder(CaseReading& r, TableReader& t) {
  const auto text = t.text("file");
  if (!text) return std::nullopt;
  const fs::path given(*text);
  if (t.from_command_line("file")) return r.folder / given;
  const auto refuse = [&](const char* what) {
    t.wrong("file", in_quotes(*text) + what,
            "put the drawing beside the case file, or name it with --set " +
                t.address_of("file"));
    return std::nullopt;
  };
  if (given.is_absolute()) return refuse(" is an absolute path");
  if (std::find(given.begin(), given.end(), "..") != given.end())
    return refuse(" leaves the case file's folder");
  std::error_code error;
  const fs::path folder = fs::canonical(r.folder, error);
  const fs::path file = fs::weakly_canonical(folder / given, error);
  if (error) return refuse(" cannot be looked up");
  if (!is_within(file, folder))
    return refuse(" is a link out of the case file's folder");
  return r.folder / given;
}

/// @returns false where the unit is none.
bool read_unit(TableReader& t, mesh::OutlineOptions& options) {
  if (!t.has("unit")) return true;
  const auto unit = t.text("unit");
  if (!unit) return false;
  try {
    const ParsedQuantity one = parse_quantity("1 " + *unit, Dimension::length);
    if (one.plus_minus == 0 && one.value > 0) {
      options.metres_per_unit = one.value;
      return true;
    }
  } catch (const InputError&) {
    // Its words are about a quantity, which this is not.
  }
  t.wrong("unit", in_quotes(*unit) + " is not a unit of length",
          "as in unit = \"mm\" or unit = \"in\"");
  return false;
}

/// @returns nullopt where one of the options is wrong.
std::optional<mesh::OutlineOptions> read_options(TableReader& t) {
  mesh::OutlineOptions options;
  const bool unit = read_unit(t, options);
  const auto scale = t.factor("scale");
  if (scale) options.scale = *scale;
  if (!unit || (t.has("scale") && !scale)) return std::nullopt;
  return options;
}

OutlineFile drawing_in(const fs::path& file,
                       const mesh::OutlineOptions& options) {
  OutlineFile drawing;
  try {
    drawing.outline = mesh::read_outline(file, options);
  } catch (const InputError& error) {
    drawing.error = error;
  }
  return drawing;
}

bool check_size(TableReader& t, const mesh::Outline& outline) {
  const mesh::Point size = mesh::bounding_box(outline).size();
  // Not a number fails this too.
  if (size.minCoeff() >= kLeast && size.maxCoeff() <= kMost) return true;
  t.wrong("file",
          fmt::format("is drawn {:.4g} mm wide and {:.4g} mm high",
                      to_mm(size.x()), to_mm(size.y())),
          "1 um .. 10 m: give the drawing's unit, as in unit = \"mm\", or a "
          "scale");
  return false;
}

}  // namespace

std::optional<mesh::Outline> read_drawing(CaseReading& r, TableReader& t) {
  const auto file = file_in_folder(r, t);
  const auto options = read_options(t);
  if (!file || !options) return std::nullopt;
  const std::string known_as =
      fmt::format("{} {} {}", file->string(), options->scale,
                  options->metres_per_unit.value_or(0));
  auto known = r.drawings.find(known_as);
  if (known == r.drawings.end()) {
    known = r.drawings.emplace(known_as, drawing_in(*file, *options)).first;
    for (const std::string& note : known->second.outline.notes)
      r.content.notes.push_back(file->filename().string() + ": " + note);
  }
  const OutlineFile& drawing = known->second;
  if (drawing.error) {
    r.findings.add(t.address(), *drawing.error);
    return std::nullopt;
  }
  if (!check_size(t, drawing.outline.outline)) return std::nullopt;
  if (drawing.outline.unit_assumed)
    r.content.assumed.push_back(
        {t.address_of("unit"), "mm", "left out, and the drawing names none"});
  return drawing.outline.outline;
}

}  // namespace thinspot::io
