#include "io/preparation_json.hpp"

#include "io/preparation_words.hpp"
#include "io/trade_units.hpp"

#include <nlohmann/json.hpp>

namespace thinspot::io {

namespace {

using Json = nlohmann::ordered_json;
using solver::Preparation;
using solver::Verdict;

const char* verdict_word(const Preparation& p) {
  if (!p.verdict) return "not known";
  switch (*p.verdict) {
    case Verdict::holds: return "holds";
    case Verdict::needs_strike: return "needs a strike";
    case Verdict::will_not_hold: return "will not hold";
    case Verdict::do_not_plate: return "do not plate here";
  }
  return "";
}

Json tasks(const Preparation& p) {
  Json list = Json::array();
  for (const solver::Task& t : p.tasks)
    list.push_back({{"do", t.what},
                    {"how", t.how},
                    {"time", t.time},
                    {"temperature", t.temperature},
                    {"rinse", t.rinse},
                    {"why", t.why},
                    {"source", t.source}});
  return list;
}

Json weights(const Preparation& p) {
  Json list = Json::array();
  for (const solver::Weight& w : p.weights)
    list.push_back({{"metal", w.metal},
                    {"weight_g", {to_grams(w.low), to_grams(w.high)}}});
  return list;
}

Json entry(const Preparation& p) {
  const PreparationWords words = words_for(p);
  return {{"coating", p.coating},
          {"given", p.given},
          {"base", p.base},
          {"onto", p.onto},
          {"holds", verdict_word(p)},
          {"verdict", words.verdict},
          {"strike", p.strike},
          {"struck", p.struck},
          {"steps", words.steps},
          {"tasks", tasks(p)},
          {"current_on", p.current_on},
          {"transfer", p.transfer},
          {"interruptions", words.interruptions},
          {"would_weigh", words.weights},
          {"more", words.more},
          {"standard", p.standard},
          {"bake", p.bake},
          {"weights", weights(p)},
          {"source", p.source}};
}

}  // namespace

std::string preparation_json(const solver::Result& result) {
  Json list = Json::array();
  for (const Preparation& p : preparations_of(result)) list.push_back(entry(p));
  return list.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace thinspot::io
