#include "mesh/outline_dxf_groups.hpp"

#include "mesh/errors.hpp"
#include "mesh/outline_drawing.hpp"
#include "mesh/outline_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <map>
#include <utility>

namespace thinspot::mesh {

namespace {

/// A group code with its value: two lines of the file.
struct Group {
  int code = 0;
  std::string_view value;
  int line = 0;  ///< of the code
};

using Record = std::vector<Group>;  ///< begins with a group of code 0

constexpr std::array kEntities{"LINE",       "ARC",      "CIRCLE", "ELLIPSE",
                               "LWPOLYLINE", "POLYLINE", "SPLINE"};

/// Codes of lengths, angles, directions; whole numbers; everything else that
/// an entity says does not shape it.
constexpr std::array kReals{10, 20, 30, 11, 21, 31, 12, 22,  32,  13,
                            23, 33, 40, 41, 42, 50, 51, 210, 220, 230};
constexpr std::array kWhole{70, 71};

template <class List>
bool among(const List& list, const auto& one) {
  return std::find(list.begin(), list.end(), one) != list.end();
}

[[noreturn]] void refuse(int line, const std::string& wrong) {
  throw InputError("file", fmt::format("line {}: {}", line, wrong),
                   "a sound DXF in text form, saved anew");
}

std::optional<int> whole_number(std::string_view text) {
  int value = 0;
  const auto [end, error] =
      std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size())
    return std::nullopt;
  return value;
}

/// Reads the pairs of lines one after the other.
class Groups {
 public:
  explicit Groups(std::string_view file) : rest_(file) {
    if (rest_.starts_with("\xEF\xBB\xBF")) rest_.remove_prefix(3);
  }
  /// @returns nothing at the end of the file
  std::optional<Group> next();

 private:
  std::string_view rest_;
  int line_ = 1;
};

std::optional<Group> Groups::next() {
  if (trimmed(rest_).find_first_not_of("\r\n") == std::string_view::npos)
    return std::nullopt;
  Group group;
  group.line = line_;
  const std::string_view code = trimmed(take_line(rest_));
  const auto number = whole_number(code);
  if (!number)
    refuse(line_, "\"" + clean_name(code) + "\" is not a group code of a DXF");
  group.code = *number;
  group.value = trimmed(take_line(rest_));
  line_ += 2;
  return group;
}

class Sorter {
 public:
  explicit Sorter(std::string_view file) : groups_(file) {}
  DxfGroups result();

 private:
  void take(const Record& record);
  void take_header(const Record& record);
  void take_entity(const Record& record);
  void take_vertex(const Record& record);
  void keep(const Record& record);
  void put(int code, std::string_view value);
  void leave_out(const std::string& what) { ++left_out_[what]; }

  Groups groups_;
  DxfGroups result_;
  std::string section_;
  bool has_entities_ = false, ended_ = false;
  /// Inside a POLYLINE, and whether it is one that we keep.
  bool in_polyline_ = false, keep_polyline_ = false;
  std::map<std::string, int> left_out_;
};

std::string_view value_of(const Record& record, int code) {
  for (const Group& g : record)
    if (g.code == code) return g.value;
  return {};
}

int flags_of(const Record& record) {
  return whole_number(value_of(record, 70)).value_or(0);
}

void Sorter::put(int code, std::string_view value) {
  fmt::format_to(std::back_inserter(result_.text), "{}\n{}\n", code, value);
}

void Sorter::keep(const Record& record) {
  put(0, record.front().value);
  put(8, clean_name(value_of(record, 8)));
  // Counts as they are, not as they are said to be.
  const auto count = [&](int code) {
    return std::to_string(
        std::count_if(record.begin(), record.end(),
                      [&](const Group& g) { return g.code == code; }));
  };
  if (record.front().value == "LWPOLYLINE") put(90, count(10));
  if (record.front().value == "SPLINE") {
    put(72, count(40));
    put(73, count(10));
    put(74, count(11));
  }
  for (const Group& g : record) {
    if (among(kReals, g.code) ? !plain_number(g.value)
                              : among(kWhole, g.code) && !whole_number(g.value))
      refuse(g.line + 1, "\"" + clean_name(g.value) + "\" is not a number");
    if (among(kReals, g.code) || among(kWhole, g.code)) put(g.code, g.value);
  }
}

void Sorter::take_header(const Record& record) {
  for (std::size_t k = 0; k + 1 < record.size(); ++k)
    if (record[k].code == 9 && record[k].value == "$INSUNITS")
      result_.insunits = whole_number(record[k + 1].value);
}

void Sorter::take_vertex(const Record& record) {
  const std::string_view name = record.front().value;
  // Of a smoothed polyline, 16 marks the frame that the curve was made from.
  const bool frame = name == "VERTEX" && (flags_of(record) & 16) != 0;
  if (keep_polyline_ && !frame) keep(record);
  if (name == "SEQEND") in_polyline_ = false;
}

void Sorter::take_entity(const Record& record) {
  const std::string name = clean_name(record.front().value);
  if (in_polyline_ && (name == "VERTEX" || name == "SEQEND"))
    return take_vertex(record);
  if (name == "VERTEX" || name == "SEQEND" || name == "ATTRIB") return;
  in_polyline_ = name == "POLYLINE";
  keep_polyline_ = false;
  if (whole_number(value_of(record, 67)).value_or(0) != 0)
    return leave_out("on the paper sheet");
  if (!among(kEntities, name)) return leave_out(name);
  if (in_polyline_ && (flags_of(record) & (16 | 64)) != 0)
    return leave_out("POLYLINE that are meshes");
  keep_polyline_ = in_polyline_;
  keep(record);
}

void Sorter::take(const Record& record) {
  const std::string_view name = record.front().value;
  if (name == "EOF") {
    ended_ = true;
  } else if (name == "SECTION") {
    section_ = value_of(record, 2);
    if (section_ == "HEADER") take_header(record);
    if (section_ == "ENTITIES") has_entities_ = true;
  } else if (name == "ENDSEC") {
    section_.clear();
    in_polyline_ = false;
  } else if (section_ == "ENTITIES") {
    take_entity(record);
  }
}

DxfGroups Sorter::result() {
  put(0, "SECTION");
  put(2, "ENTITIES");
  Record record;
  int last_line = 0;
  while (!ended_) {
    const auto group = groups_.next();
    if (group && group->code == 999) continue;  // a comment
    if (group) last_line = group->line;
    if (!record.empty() && (!group || group->code == 0)) {
      take(record);
      record.clear();
    }
    if (!group) break;
    if (record.empty() && group->code != 0)
      refuse(group->line, "a DXF begins with 0 and SECTION");
    record.push_back(*group);
  }
  if (!has_entities_)
    throw InputError("file", "has no ENTITIES section",
                     "a DXF in text form that holds the drawing");
  if (!ended_) refuse(last_line + 1, "ends before the mark EOF: cut short");
  put(0, "ENDSEC");
  put(0, "EOF");
  std::string list;
  for (const auto& [what, count] : left_out_)
    list +=
        fmt::format("{}{} {}", list.empty() ? "left out: " : ", ", count, what);
  if (!list.empty()) result_.notes.push_back(list);
  return std::move(result_);
}

}  // namespace

DxfGroups read_dxf_groups(std::string_view file) {
  if (file.find('\0') != std::string_view::npos)
    throw InputError("file", "is a DXF in binary form, or none",
                     "saved as DXF in text form");
  return Sorter(file).result();
}

}  // namespace thinspot::mesh
