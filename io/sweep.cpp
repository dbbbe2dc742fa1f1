#include "io/sweep.hpp"

#include "io/addresses.hpp"
#include "io/case_file.hpp"
#include "io/nearest.hpp"
#include "io/quote.hpp"
#include "io/sweep_draw.hpp"
#include "io/sweep_sharing.hpp"
#include "mesh/errors.hpp"
#include "solver/draws.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <optional>
#include <utility>

namespace thinspot::io {

namespace {

using Eigen::Index;

/// Beyond so many corners each axis goes to its ends alone.
constexpr std::size_t kMostCorners = 16;

[[noreturn]] void refuse_key(const std::vector<AddressedTable>& all,
                             const std::string& key) {
  const auto near = nearest(key, all_addresses(all));
  throw InputError(is_printable(key, 60) ? key : in_quotes(key),
                   "is not a key of this case",
                   near ? fmt::format("is \"{}\" meant?", *near)
                        : "table.key or table.name.key, as in anode.sheet.gap");
}

/// The values between which all others of an axis lie; of words, all.
std::vector<std::string> ends_of(const SweepAxis& axis) {
  if (axis.has_words()) {
    std::vector<std::string> words = axis.texts;
    std::sort(words.begin(), words.end());
    return words;
  }
  const auto [low, high] =
      std::minmax_element(axis.numbers.begin(), axis.numbers.end());
  const auto text = [&](auto at) {
    return axis.texts[static_cast<std::size_t>(at - axis.numbers.begin())];
  };
  if (low == high) return {text(low)};
  return {text(low), text(high)};
}

std::string middle_of(const SweepAxis& axis) {
  if (axis.has_words())
    return *std::min_element(axis.texts.begin(), axis.texts.end());
  std::vector<std::pair<double, std::string>> all;
  for (std::size_t k = 0; k < axis.texts.size(); ++k)
    all.emplace_back(axis.numbers[k], axis.texts[k]);
  std::sort(all.begin(), all.end());
  return axis.anywhere ? axis.text_of(axis.number_at(0.5))
                       : all[all.size() / 2].second;
}

}  // namespace

Sweep::Sweep(SweepRequest request)
    : request_(std::move(request)),
      document_(parse_document(request_.text, request_.file)) {
  if (request_.vary.empty())
    throw InputError("", "nothing is varied",
                     "add --vary, as in --vary 'anode.sheet.gap=10 mm..40 "
                     "mm:31'");
  if (request_.vary.size() > kMostAxes)
    throw InputError("--vary",
                     fmt::format("is given {} times", request_.vary.size()),
                     fmt::format("{} keys at most", kMostAxes));
  if (request_.sample > kMostSamples)
    throw InputError("--sample", fmt::format("{} is too many", request_.sample),
                     fmt::format("{} points at most", kMostSamples));
  if (request_.sample * request_.vary.size() > kMostDrawn)
    throw InputError(
        "--sample",
        fmt::format("{} points of {} keys are too many", request_.sample,
                    request_.vary.size()),
        fmt::format("{} points at most", kMostDrawn / request_.vary.size()));
  for (const std::string& vary : request_.vary)
    axes_.push_back(sweep_axis(vary));
  find_axes();
  if (is_grid()) {
    count_grid();
  } else {
    size_ = request_.sample;
    draw();
    sort_positions();
  }
  find_columns();
}

void Sweep::count_grid() {
  size_ = 1;
  for (const SweepAxis& axis : axes_) {
    if (axis.anywhere)
      throw InputError(axis.key, "is a range without a number of values",
                       "write how many, as in 10 mm..40 mm:31, or draw a "
                       "sample with --sample 1000");
    size_ *= axis.texts.size();
    if (size_ > kMostPoints)
      throw InputError("--vary", "makes too many points in all",
                       fmt::format("{} at most: fewer values, or a sample of "
                                   "them with --sample 10000",
                                   kMostPoints));
  }
  stride_.assign(axes_.size(), 1);
  for (std::size_t k = axes_.size() - 1; k-- > 0;)
    stride_[k] = stride_[k + 1] * axes_[k + 1].texts.size();
}

/// Probes have a column each; which there are is the same at all points.
void Sweep::find_columns() {
  inputs_ = sweep_inputs(axes_);
  std::optional<solver::Case> any = some_case();
  for (const std::uint64_t point : {std::uint64_t{0}, size_ / 2, size_ - 1})
    if (!any) any = readable(texts_of(point));
  outputs_ = sweep_outputs(any.value_or(solver::Case{}), request_.bands);
}

void Sweep::refuse_twice(std::size_t axis,
                         const std::vector<std::string_view>& not_beside,
                         const std::string& table) const {
  const std::string& key = axes_[axis].key;
  const std::string start = table.empty() ? "" : table + ".";
  for (std::size_t other = 0; other < axes_.size(); ++other) {
    if (other == axis) continue;
    if (axes_[other].key == key)
      throw InputError(key, "is varied twice", "all its values in one --vary");
    const auto refuse_beside = [&] {
      throw InputError(key, "cannot be varied beside " + axes_[other].key,
                       "only one of them can stand in a case");
    };
    // The halves of a point, a recipe's substances.
    if (axes_[other].key.starts_with(key + ".")) refuse_beside();
    for (std::string_view drops : not_beside)
      if (axes_[other].key == start + std::string(drops)) refuse_beside();
  }
}

std::optional<solver::Case> Sweep::readable(
    const std::vector<std::string>& texts) const {
  try {
    return with(texts);
  } catch (const InputError&) {  // its points say so
    return std::nullopt;
  }
}

/// As the file has it, or else with the first or last values.
std::optional<solver::Case> Sweep::some_case() const {
  std::vector<std::string> first, last;
  for (const SweepAxis& axis : axes_) {
    first.push_back(axis.texts.front());
    last.push_back(axis.texts.back());
  }
  for (const auto& texts : {std::vector<std::string>{}, first, last})
    if (auto c = readable(texts)) return c;
  return std::nullopt;
}

void Sweep::find_axes() {
  const std::vector<AddressedTable> all = addressed_tables(document_);
  std::vector<Address> found;
  for (std::size_t k = 0; k < axes_.size(); ++k) {
    const auto address = resolve(all, axes_[k].key);
    if (!address) refuse_key(all, axes_[k].key);
    refuse_twice(k, address->key->instead_of, address->place->address);
    found.push_back(*address);
  }
  std::optional<solver::Case> any = some_case();
  // What decides besides the key is the same at all points, or happens at some.
  for (const Address& address : found) {
    if (any && address.key->name == "growth") any->growth = true;
    if (any && address.key->name == "turning")
      any->steps.front().turning.emplace();
  }
  for (std::size_t k = 0; k < axes_.size(); ++k) {
    const bool leaves = any && leaves_meshes(found[k], axes_[k], *any);
    (leaves ? electric_ : geometric_).push_back(k);
  }
}

void Sweep::draw() {
  const auto points = static_cast<Index>(size_);
  const auto axes = static_cast<Index>(axes_.size());
  shares_ = request_.sobol
                ? sobol_shares(points, axes, request_.seed)
                : solver::latin_hypercube(points, axes, request_.seed);
}

void Sweep::sort_positions() {
  lone_ = std::any_of(geometric_.begin(), geometric_.end(),
                      [&](std::size_t k) { return axes_[k].anywhere; });
  double groups = 1;
  for (std::size_t k : geometric_)
    groups *= static_cast<double>(axes_[k].texts.size());
  lone_ = lone_ || groups > static_cast<double>(kMostPoints);
  order_.resize(size_);
  std::iota(order_.begin(), order_.end(), 0u);
  if (!lone_ && !geometric_.empty())
    std::stable_sort(order_.begin(), order_.end(),
                     [&](std::uint32_t a, std::uint32_t b) {
                       return mixed(a, geometric_) < mixed(b, geometric_);
                     });
}

std::size_t Sweep::value_index(std::uint64_t point, std::size_t axis) const {
  if (is_grid()) return point / stride_[axis] % axes_[axis].texts.size();
  return axes_[axis].value_at(
      shares_(static_cast<Index>(point), static_cast<Index>(axis)));
}

double Sweep::number(std::uint64_t point, std::size_t axis) const {
  const SweepAxis& a = axes_[axis];
  if (a.anywhere)
    return a.number_at(
        shares_(static_cast<Index>(point), static_cast<Index>(axis)));
  const std::size_t at = value_index(point, axis);
  return a.has_words() ? static_cast<double>(at) : a.numbers[at];
}

std::string Sweep::text(std::uint64_t point, std::size_t axis) const {
  const SweepAxis& a = axes_[axis];
  return a.anywhere ? a.text_of(number(point, axis))
                    : a.texts[value_index(point, axis)];
}

std::vector<std::string> Sweep::texts_of(std::uint64_t point) const {
  std::vector<std::string> texts;
  for (std::size_t k = 0; k < axes_.size(); ++k)
    texts.push_back(text(point, k));
  return texts;
}

solver::Case Sweep::with(const std::vector<std::string>& texts) const {
  std::vector<std::string> overrides = request_.overrides;
  for (std::size_t k = 0; k < texts.size(); ++k)
    overrides.push_back(axes_[k].key + "=" + texts[k]);
  return read_case(document_, request_.file, overrides).content;
}

solver::Case Sweep::content(std::uint64_t point) const {
  return with(texts_of(point));
}

/// The number that the values of some axes make, the last of them fastest.
std::uint64_t Sweep::mixed(std::uint64_t point,
                           const std::vector<std::size_t>& of) const {
  std::uint64_t number = 0;
  for (std::size_t k : of)
    number = number * axes_[k].texts.size() + value_index(point, k);
  return number;
}

std::uint64_t Sweep::point_at(std::uint64_t position) const {
  if (!is_grid()) return order_[position];
  std::uint64_t point = 0;
  for (const auto* of : {&electric_, &geometric_})
    for (std::size_t k = of->size(); k-- > 0;) {
      const std::size_t axis = (*of)[k];
      const std::uint64_t count = axes_[axis].texts.size();
      point += position % count * stride_[axis];
      position /= count;
    }
  return point;
}

std::uint64_t Sweep::group_of(std::uint64_t point) const {
  return lone_ ? point : mixed(point, geometric_);
}

std::vector<solver::Case> Sweep::corners(std::uint64_t point) const {
  std::vector<std::size_t> axes = electric_;
  std::sort(axes.begin(), axes.end(), [&](std::size_t a, std::size_t b) {
    return axes_[a].key < axes_[b].key;
  });
  std::vector<std::vector<std::string>> sets{texts_of(point)};
  std::size_t count = 1;
  for (std::size_t k : axes)
    count = std::min(count * ends_of(axes_[k]).size(), 2 * kMostCorners);
  if (count <= kMostCorners) {
    for (std::size_t k : axes) {
      std::vector<std::vector<std::string>> more;
      for (const std::string& end : ends_of(axes_[k]))
        for (std::vector<std::string> set : sets) {
          set[k] = end;
          more.push_back(std::move(set));
        }
      sets = std::move(more);
    }
  } else {
    std::vector<std::string> middle = sets.front(), low = middle, high = middle;
    for (std::size_t k : axes) {
      middle[k] = middle_of(axes_[k]);
      low[k] = ends_of(axes_[k]).front();
      high[k] = ends_of(axes_[k]).back();
    }
    sets = {low, high};
    for (std::size_t k : axes) {
      const std::vector<std::string> ends = ends_of(axes_[k]);
      for (std::size_t e = 0; e < std::min(ends.size(), kMostCorners); ++e) {
        sets.push_back(middle);
        sets.back()[k] = ends[e];
      }
    }
  }
  std::vector<solver::Case> corners;
  for (const std::vector<std::string>& set : sets)
    if (auto c = readable(set)) corners.push_back(std::move(*c));
  return corners;
}

}  // namespace thinspot::io
