#include "solver/layers.hpp"

#include "mesh/errors.hpp"
#include "solver/assemble_result.hpp"
#include "solver/expected_work.hpp"
#include "solver/model.hpp"
#include "solver/preparation.hpp"
#include "solver/same_part.hpp"
#include "solver/solved_case.hpp"
#include "solver/uncertainty.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace thinspot::solver {

namespace {

/// One layer solved by itself.
struct Layer {
  Case used;
  Schedule schedule;
  Result result;
};

const mesh::Solid& part_of(const Case& c) {
  return c.section.solids[part_solids(c).front()];
}

/// Every probe once, where the layer at hand draws it.
std::vector<Probe> all_probes(const std::vector<Case>& cases,
                              const Case& here) {
  std::vector<Probe> all;
  for (const Case& c : cases)
    for (Probe probe : c.probes) {
      probe.at = as_drawn_there(part_of(c), part_of(here), probe.at);
      const bool known =
          std::any_of(all.begin(), all.end(), [&](const Probe& other) {
            return other.name == probe.name &&
                   (other.at - probe.at).norm() < 1e-6;
          });
      if (!known) all.push_back(std::move(probe));
    }
  return all;
}

/// "copper", or "copper 2" where there are several of it.
std::vector<std::string> names_of(const std::vector<Case>& layers) {
  std::vector<std::string> names;
  const auto metal = [&](std::size_t k) {
    return layers[k].solution.metal.name;
  };
  for (std::size_t k = 0; k < layers.size(); ++k) {
    int same = 0, until = 0;
    for (std::size_t j = 0; j < layers.size(); ++j) {
      same += metal(j) == metal(k);
      until += j <= k && metal(j) == metal(k);
    }
    names.push_back(same > 1 ? fmt::format("{} {}", metal(k), until)
                             : metal(k));
  }
  return names;
}

Layer solved_layer(const Case& c, std::size_t k, const std::string& name,
                   const Progress& progress, const Wanted& wanted) {
  try {
    SolvedCase solved = solved_case(c, progress, wanted);
    return {c, std::move(solved.schedule), std::move(solved.result)};
  } catch (const InputError& error) {
    throw LayerError(error, k);
  } catch (const NoResultError& error) {
    throw NoResultError(
        fmt::format("layer {}, {}: {}", k + 1, name, error.what()));
  }
}

/// The steps of all layers as those of one job, not yet added up.
Schedule joined(const std::vector<Layer>& layers) {
  Schedule all;
  all.drawn = layers.back().schedule.drawn;
  for (const Layer& layer : layers) {
    const Schedule& s = layer.schedule;
    for (Phase phase : s.phases) {
      phase.step += all.angles.size();
      all.phases.push_back(phase);
    }
    all.angles.insert(all.angles.end(), s.angles.begin(), s.angles.end());
    for (SolvedStep step : s.steps) {
      if (step.turnable >= 0)
        step.turnable += static_cast<int>(all.turns.size());
      all.steps.push_back(std::move(step));
    }
    all.turns.insert(all.turns.end(), s.turns.begin(), s.turns.end());
    const auto add = [](std::vector<double>& sum,
                        const std::vector<double>& own) {
      sum.resize(own.size(), 0);
      for (std::size_t n = 0; n < own.size(); ++n) sum[n] += own[n];
    };
    add(all.turning_errors, s.turning_errors);
    add(all.probe_thickness, s.probe_thickness);
    add(all.probe_errors, s.probe_errors);
  }
  return all;
}

/// How much two titles begin with alike, up to a comma or colon.
std::size_t common_beginning(const std::string& a, const std::string& b) {
  std::size_t end = 0;
  for (std::size_t k = 0; k < std::min(a.size(), b.size()); ++k) {
    if (a[k] != b[k]) break;
    if (k > 0 && a[k] == ' ' && (a[k - 1] == ',' || a[k - 1] == ':'))
      end = k + 1;
  }
  return end;
}

/// "A token, copper between two sheets, then nickel before one".
std::string title_of(const std::vector<Case>& layers) {
  std::string title = layers.front().title;
  for (std::size_t k = 1; k < layers.size(); ++k) {
    const std::string& next = layers[k].title;
    if (next == layers[k - 1].title) continue;
    title +=
        ", then " + next.substr(common_beginning(layers[k - 1].title, next));
  }
  return title;
}

/// The last layer's case with the steps of all.
Case whole_case(const std::vector<Case>& layers) {
  Case whole = layers.back();
  whole.title = title_of(layers);
  whole.target.thickness.reset();  // each layer has its own
  whole.steps.clear();
  whole.assumed.clear();
  for (std::size_t k = 0; k < layers.size(); ++k) {
    const Case& c = layers[k];
    whole.steps.insert(whole.steps.end(), c.steps.begin(), c.steps.end());
    // Addressed as the command line addresses it.
    for (Assumption a : c.assumed) {
      a.key = fmt::format("{}:{}", k + 1, a.key);
      whole.assumed.push_back(std::move(a));
    }
  }
  return whole;
}

/// Takes sentences into a list that holds others already, each behind the one
/// that it followed.
void merge(std::vector<std::string>& all, const std::vector<std::string>& own) {
  auto behind = all.begin();
  for (const std::string& text : own) {
    const auto found = std::find(all.begin(), all.end(), text);
    behind = (found == all.end() ? all.insert(behind, text) : found) + 1;
  }
}

/// What a layer leaves along each part's surface, from what there is after
/// its last step and what there was before its first.
std::vector<Eigen::VectorXd> left_by(const Result& whole, std::size_t first,
                                     std::size_t end) {
  std::vector<Eigen::VectorXd> thickness;
  for (std::size_t p = 0; p < whole.parts.size(); ++p) {
    thickness.push_back(whole.steps[end - 1].parts[p].grown);
    if (first > 0) thickness.back() -= whole.steps[first - 1].parts[p].grown;
  }
  return thickness;
}

/// A note of one layer says so; one of all layers stands once.
std::vector<std::string> notes_of(const std::vector<Layer>& layers,
                                  const std::vector<std::string>& names) {
  std::vector<std::string> notes;
  for (std::size_t k = 0; k < layers.size(); ++k)
    for (const std::string& note : layers[k].result.notes) {
      const bool of_all =
          std::all_of(layers.begin(), layers.end(), [&](const Layer& other) {
            const auto& there = other.result.notes;
            return std::find(there.begin(), there.end(), note) != there.end();
          });
      if (!of_all)
        notes.push_back(fmt::format("Layer {}, {}: {}", k + 1, names[k], note));
      else if (k == 0)
        notes.push_back(note);
    }
  return notes;
}

/// What of the sum is known layer by layer alone.
void tell_apart(Result& whole, std::vector<Layer> layers, const Case& title,
                const std::vector<std::string>& names) {
  const Result& last = layers.back().result;
  whole.used.title = title.title;
  whole.used.target = title.target;
  whole.used.assumed = title.assumed;
  whole.anodes = last.anodes;
  for (PartResult& part : whole.parts) part.mass = 0;
  whole.cautions.clear();
  whole.notes = notes_of(layers, names);
  whole.mesh_seconds = whole.solve_seconds = 0;
  std::size_t first = 0;
  for (std::size_t k = 0; k < layers.size(); ++k) {
    Result& own = layers[k].result;
    for (std::size_t p = 0; p < whole.parts.size(); ++p)
      whole.parts[p].mass += own.parts[p].mass;
    merge(whole.cautions, own.cautions);
    whole.mesh_seconds += own.mesh_seconds;
    whole.solve_seconds += own.solve_seconds;
    const std::size_t end = first + own.steps.size();
    for (std::size_t n = first; n < end; ++n) {
      StepResult& step = whole.steps[n];
      step.layer = k;
      step.metal = names[k];
      step.burning = own.steps[n - first].burning;
      if (k + 1 < layers.size()) step.cell = own.steps[n - first].cell;
    }
    whole.layers.push_back({names[k], own.used.solution.metal.name,
                            std::move(own), left_by(whole, first, end)});
    first = end;
  }
}

/// What a layer is to the next: the kind of solution that it came from.
std::string kind_or_metal(const Case& c) {
  const Coating* kind =
      c.base_metals ? kind_of_solution(*c.base_metals, c.solution) : nullptr;
  return kind ? kind->name : c.solution.metal.name;
}

}  // namespace

std::vector<Case> as_layers(const std::vector<Case>& cases) {
  std::vector<Case> layers = cases;
  for (std::size_t k = 0; k < layers.size(); ++k) {
    if (k > 0) {
      const Case& before = layers[k - 1];
      layers[k].part_metal = before.solution.metal.name;
      layers[k].below = before.below;
      if (k == 1) layers[k].below = {before.part_metal};
      layers[k].below.push_back(kind_or_metal(before));
    }
    // Without a part there is no case, as the solver will say.
    if (!part_solids(layers[k]).empty())
      layers[k].probes = all_probes(cases, layers[k]);
  }
  return layers;
}

Result simulate_layers(const std::vector<Case>& cases, const Progress& progress,
                       const Wanted& wanted) {
  // 1. On the same part, or there is nothing to add up.
  check_same_part(cases);
  for (std::size_t k = 0; k < cases.size(); ++k)
    if (cases[k].growth)
      throw LayerError(
          InputError("growth",
                     "is not computed for several layers: the next one would "
                     "begin on a surface that has moved",
                     "leave it out, or solve this layer by itself"),
          k);
  const std::vector<Case> content = as_layers(cases);
  const std::vector<std::string> names = names_of(content);

  // 2. Each layer by itself.
  std::vector<Layer> layers;
  const ExpectedWork last = work_of_sum(content);
  double after = last.all();
  for (const Case& c : content) after += expected_work(c).all();
  Unfolding pieces(progress);
  for (std::size_t k = 0; k < content.size(); ++k) {
    const double own = expected_work(content[k]).all();
    after -= own;
    layers.push_back(solved_layer(
        content[k], k, names[k],
        pieces.next(own, after).within({"", "layer", k + 1, content.size()}),
        wanted));
  }

  // 3. All on one material grid: added up, with an eye on where the whole is
  //    thinnest and heaviest.
  const Case whole = whole_case(content);
  Schedule all = joined(layers);
  const auto piece = [&](double work, double to_come) {
    return pieces.next(work, to_come).within({"all layers"});
  };
  add_up_watched(all, whole, piece(last.watching, last.bands + last.meaning));
  const Bands bands =
      compute_bands(all, content, piece(last.bands, last.meaning));
  Result result = assemble_result(all, whole, bands);

  // 4. And told apart again.
  tell_apart(result, std::move(layers), whole, names);
  appraise_layers(all, result, piece(last.meaning, 0));
  return result;
}

}  // namespace thinspot::solver
