#include "io/cli/card.hpp"

#include "io/card_words.hpp"
#include "viz/bench_card.hpp"

namespace thinspot::io::cli {

std::string card_of(const solver::Result& result, const Words& words) {
  const CardWords said = card_words(result, words);
  return viz::bench_card(result, {.title = said.title,
                                  .tank = said.tank,
                                  .verdict = said.verdict,
                                  .todo = said.todo,
                                  .steps = said.steps,
                                  .meter = said.meter,
                                  .thickness = said.thickness,
                                  .cautions = said.cautions});
}

}  // namespace thinspot::io::cli
