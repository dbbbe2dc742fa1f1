// A step says what differs from the step before it; so does what is written.
#include "io/planned_pieces.hpp"
#include "io/quantity_text.hpp"
#include "io/toml_value.hpp"

#include <optional>
#include <utility>

namespace thinspot::io {

namespace {

using solver::Case;
using solver::Step;
using solver::Supply;
using Names = std::vector<std::string>;

/// What holds in a step, nothing left out.
struct Whole {
  Step step;
  Supply supply;
  std::vector<Supply> rectifiers;
  Names clips;
};

/// As a case is before its first step.
Whole before_all(const Case& c) {
  Whole w;
  w.step.duration.value = -1;
  w.supply = c.supply;
  for (const solver::Rectifier& r : c.rectifiers)
    w.rectifiers.push_back(r.supply);
  for (const solver::Clip& clip : c.clips) w.clips.push_back(clip.name);
  return w;
}

std::vector<Whole> whole_steps(const Case& c) {
  std::vector<Whole> all{before_all(c)};
  for (const Step& step : c.steps) {
    Whole w = before_all(c);
    w.step = step;
    if (step.supply) w.supply = *step.supply;
    if (step.rectifiers) w.rectifiers = *step.rectifiers;
    if (step.clips) w.clips = *step.clips;
    all.push_back(std::move(w));
  }
  return all;
}

/// What the settings of a step are, beside those before it.
Node setting(const Supply& before, const Supply& now) {
  Node table = table_node();
  Supply none;
  none.voltage_limit = before.voltage_limit;
  put_setting(table, none, now);
  return table;
}

Node turning_node(const std::optional<solver::Turning>& turning) {
  Node table = table_node();
  if (turning && turning->positions == 0) {
    put_key(table, "rate", text_node(rate_text(turning->rate)));
    return table;
  }
  put_key(table, "positions", number_node(turning ? turning->positions : 1));
  if (turning && turning->dwell > 0)
    put_key(table, "dwell", text_node(time_text(turning->dwell)));
  return table;
}

/// Writes one step; `was` are what its old table was written for.
class StepWriter {
 public:
  StepWriter(Node& table, const Case& c, const Whole* was_before,
             const Whole* was, const Whole& before, const Whole& now)
      : table_(table),
        case_(c),
        was_before_(was_before),
        was_(was),
        before_(before),
        now_(now) {}

  void write() {
    carried(
        "duration", [](const Whole& w) { return w.step.duration; },
        [&] { return text_node(duration_quantity(now_.step.duration)); });
    carried(
        "flip", [](const Whole& w) { return w.step.motion.flip; },
        [&] { return flag_node(now_.step.motion.flip); });
    carried(
        "turn", [](const Whole& w) { return w.step.motion.turn; },
        [&] { return text_node(angle_text(now_.step.motion.turn)); });
    carried(
        "turning", [](const Whole& w) { return w.step.turning; },
        [&] { return turning_node(now_.step.turning); });
    carried(
        "clips", [](const Whole& w) { return w.clips; },
        [&] { return texts_node(now_.clips); });
    carried(
        "off", [](const Whole& w) { return w.step.off; },
        [&] { return texts_node(now_.step.off); });
    carried(
        "lifted", [](const Whole& w) { return w.step.lifted; },
        [&] { return texts_node(now_.step.lifted); });
    carried(
        "supply", [](const Whole& w) { return w.supply; },
        [&] { return setting(before_.supply, now_.supply); });
    carried(
        "rectifiers", [](const Whole& w) { return w.rectifiers; },
        [&] { return rectifiers(); });
    told(
        "temperature", [](const Whole& w) { return w.step.temperature; },
        [&] { return text_node(temperature_text(*now_.step.temperature)); });
    told(
        "conductivity", [](const Whole& w) { return w.step.conductivity; },
        [&] {
          return text_node(conductivity_quantity(*now_.step.conductivity));
        });
  }

 private:
  /// A key that holds until another step gives it again.
  template <class Of, class Make>
  void carried(const char* key, Of of, Make make) {
    const bool as_written =
        was_ && of(*was_) == of(now_) && of(*was_before_) == of(before_);
    if (as_written) return;
    if (of(now_) == of(before_))
      drop_key(table_, key);
    else
      put_key(table_, key, make());
  }

  /// A key of one step alone.
  template <class Of, class Make>
  void told(const char* key, Of of, Make make) {
    if (was_ && of(*was_) == of(now_)) return;
    if (of(now_))
      put_key(table_, key, make());
    else
      drop_key(table_, key);
  }

  Node rectifiers() const {
    Node table = table_node();
    for (std::size_t k = 0; k < now_.rectifiers.size(); ++k)
      if (!(now_.rectifiers[k] == before_.rectifiers[k]))
        put_key(table, case_.rectifiers[k].name,
                setting(before_.rectifiers[k], now_.rectifiers[k]));
    return table;
  }

  Node& table_;
  const Case& case_;
  const Whole* was_before_;
  const Whole* was_;
  const Whole& before_;
  const Whole& now_;
};

/// Otherwise what the user noted beside a step would be of another one: it is
/// written anew, and all behind it.
bool stands_alike(const Whole& was, const Whole& now) {
  return was.step.motion == now.step.motion &&
         was.step.turning == now.step.turning;
}

}  // namespace

void put_steps(Node& root, const Case& drawn, const Case& planned) {
  Node* const list = root.find("step");
  if (!list || list->kind != Node::Kind::list) return;
  const std::vector<Whole> was = whole_steps(drawn), now = whole_steps(planned);
  const std::size_t drawn_count = list->items.size();
  list->items.resize(planned.steps.size(), table_node());
  bool known = true;
  for (std::size_t k = 0; k < planned.steps.size(); ++k) {
    known = known && k < drawn_count && k + 1 < was.size() &&
            stands_alike(was[k + 1], now[k + 1]);
    if (!known) list->items[k] = table_node();
    StepWriter(list->items[k], planned, known ? &was[k] : nullptr,
               known ? &was[k + 1] : nullptr, now[k], now[k + 1])
        .write();
  }
}

}  // namespace thinspot::io
