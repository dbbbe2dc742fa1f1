#include "io/sweep_work.hpp"

#include "mesh/errors.hpp"

#include <exception>
#include <new>

namespace thinspot::io {

namespace {

/// One line: the first thing wrong, and how many more there are.
std::string in_words(const InputError& error) {
  const Problem& p = error.problems().front();
  std::string text = p.key.empty() ? p.wrong : p.key + ": " + p.wrong;
  if (!p.mend.empty()) text += "; " + p.mend;
  if (const std::size_t more = error.problems().size() - 1; more > 0)
    text += "; and " + std::to_string(more) + " more";
  return text;
}

}  // namespace

solver::SetUpFigures SweepWork::figures(std::uint64_t point, bool alone) {
  const solver::Case c = sweep_.content(point);
  const bool bands = sweep_.request().bands;
  if (alone || !sweep_.shares()) return solver::solved_alone(c, bands);
  const std::uint64_t group = sweep_.group_of(point);
  if (group_ != group) {
    // Where these cannot be made they are not tried again for each point.
    group_ = group;
    kept_.reset();
    kept_ = std::make_unique<const solver::KeptSetUp>(sweep_.corners(point));
  }
  return kept_ && kept_->works() ? kept_->answer(c, bands)
                                 : solver::solved_alone(c, bands);
}

SweepAnswer SweepWork::answer(std::uint64_t point, bool alone) {
  SweepAnswer a;
  a.point = point;
  try {
    const solver::SetUpFigures f = figures(point, alone);
    a.words = f.limited_by;
    for (const SweepOutput& output : sweep_.outputs())
      a.outputs.push_back(output.of(f));
  } catch (const InputError& error) {
    a.status = SweepAnswer::Status::refused;
    a.words = in_words(error);
  } catch (const std::bad_alloc&) {
    a.status = SweepAnswer::Status::no_result;
    a.words = "not enough memory; ask for less accuracy";
  } catch (const std::exception& error) {
    a.status = SweepAnswer::Status::no_result;
    a.words = error.what();
  }
  return a;
}

}  // namespace thinspot::io
