#include "io/sweep_files.hpp"

#include "io/csv_rows.hpp"
#include "io/number_text.hpp"
#include "io/program.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <utility>

namespace thinspot::io {

namespace {

using Json = nlohmann::ordered_json;
using Status = SweepAnswer::Status;

/// Of a table that is written so far, as much is held.
constexpr std::size_t kPiece = std::size_t{1} << 16;
constexpr std::size_t kMostMessages = 20;

/// Text that a shell takes as one word.
std::string in_shell_quotes(const std::string& text) {
  std::string out = "'";
  for (const char c : text)
    out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

std::string number_cell(double value) {
  return std::isfinite(value) ? fmt::format("{}", six_digits(value)) : "";
}

std::string head(const Sweep& sweep) {
  std::string line = "point,status,message,limited_by";
  for (const SweepColumn& column : sweep.inputs())
    line += "," + csv_cell(column.name);
  for (const SweepOutput& output : sweep.outputs())
    line += "," + csv_cell(output.name);
  return line + "\n";
}

std::string row_text(const Sweep& sweep, const SweepRow& row) {
  std::string line =
      fmt::format("{},{},{},{}", row.point + 1, status_name(row.status),
                  csv_cell(row.message), csv_cell(row.limited_by));
  for (std::size_t k = 0; k < sweep.axes().size(); ++k)
    line += "," + (sweep.axes()[k].has_words()
                       ? csv_cell(sweep.text(row.point, k))
                       : fmt::format("{}", sweep.number(row.point, k)));
  for (const double output : row.outputs) line += "," + number_cell(output);
  return line + "\n";
}

Json number(double value) {
  return std::isfinite(value) ? Json(six_digits(value)) : Json(nullptr);
}

Json point_json(const Sweep& sweep, const std::optional<SweepRow>& row) {
  if (!row) return nullptr;
  Json inputs = Json::object(), outputs = Json::object();
  for (std::size_t k = 0; k < sweep.axes().size(); ++k)
    inputs[sweep.axes()[k].key] = sweep.text(row->point, k);
  for (std::size_t k = 0; k < row->outputs.size(); ++k)
    outputs[sweep.outputs()[k].name] = number(row->outputs[k]);
  return {{"point", row->point + 1},
          {"inputs", std::move(inputs)},
          {"limited_by", row->limited_by},
          {"outputs", std::move(outputs)}};
}

Json varied(const Sweep& sweep) {
  Json list = Json::array();
  for (std::size_t k = 0; k < sweep.axes().size(); ++k) {
    const SweepAxis& axis = sweep.axes()[k];
    list.push_back(
        {{"key", axis.key},
         {"column", sweep.inputs()[k].name},
         {"unit", axis.unit},
         {"values", axis.anywhere ? Json(nullptr) : Json(axis.texts.size())},
         {"written", sweep.request().vary[k]}});
  }
  return list;
}

}  // namespace

SweepOverview sweep_overview(const Sweep& sweep, const SweepStore& store,
                             std::uint64_t computed) {
  SweepOverview o;
  o.computed = computed;
  const std::size_t even =
      output_index(sweep.outputs(), "heaviest_over_thinnest");
  const std::size_t time = output_index(sweep.outputs(), "time_needed_min");
  const std::size_t burns = output_index(sweep.outputs(), "burns");
  store.for_each([&](const SweepRow& row) {
    o.done += row.status == Status::done;
    o.refused += row.status == Status::refused;
    o.no_result += row.status == Status::no_result;
    o.lost += row.status == Status::lost;
    if (row.status != Status::done) return;
    if (std::isfinite(row.outputs[even]) &&
        (!o.most_even || row.outputs[even] < o.most_even->outputs[even]))
      o.most_even = row;
    if (std::isfinite(row.outputs[time]) && row.outputs[burns] != 1 &&
        (!o.soonest || row.outputs[time] < o.soonest->outputs[time]))
      o.soonest = row;
  });
  o.messages = store.messages(kMostMessages);
  return o;
}

std::string point_text(const Sweep& sweep, std::uint64_t point) {
  std::string text;
  for (std::size_t k = 0; k < sweep.axes().size(); ++k)
    text += (k == 0 ? "" : ", ") + sweep.axes()[k].key + " = " +
            sweep.text(point, k);
  return text;
}

std::string point_options(const Sweep& sweep, std::uint64_t point) {
  std::string text;
  for (const std::string& set : sweep.request().overrides)
    text += " --set " + in_shell_quotes(set);
  for (std::size_t k = 0; k < sweep.axes().size(); ++k)
    text += " --set " +
            in_shell_quotes(sweep.axes()[k].key + "=" + sweep.text(point, k));
  return text.empty() ? text : text.substr(1);
}

void write_points(OutputFolder& folder, const Sweep& sweep,
                  const SweepStore& store) {
  SweepRows rows = store.rows();
  SweepRow row;
  bool begun = false, more = true;
  folder.write("points.csv", [&](std::string& piece) {
    if (!std::exchange(begun, true)) piece = head(sweep);
    while (more && piece.size() < kPiece)
      if ((more = rows.next(row))) piece += row_text(sweep, row);
    return !piece.empty();
  });
}

std::string sweep_json(const Sweep& sweep, const SweepOverview& o,
                       const std::vector<WrittenFile>& written) {
  const SweepRequest& r = sweep.request();
  Json messages = Json::array();
  for (const auto& [text, points] : o.messages)
    messages.push_back({{"message", text}, {"points", points}});
  Json out = {
      {"schema", 1},
      {"program", {{"name", program_name}, {"version", program_version()}}},
      {"case_file", r.file},
      {"varied", varied(sweep)},
      {"method", sweep.is_grid() ? "grid"
                 : r.sobol       ? "sobol"
                                 : "latin hypercube"},
      {"seed", sweep.is_grid() ? Json(nullptr) : Json(r.seed)},
      {"points",
       {{"all", sweep.size()},
        {"computed_now", o.computed},
        {"done", o.done},
        {"refused", o.refused},
        {"no_result", o.no_result},
        {"lost", o.lost}}},
      {"messages", std::move(messages)},
      {"most_even", point_json(sweep, o.most_even)},
      {"soonest", point_json(sweep, o.soonest)}};
  out["files"] = Json::array();
  for (const WrittenFile& f : written)
    out["files"].push_back({{"name", f.name}, {"bytes", f.bytes}});
  return out.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace thinspot::io
