// --vary by lot: an axis, or an InputError, and nothing else.
#include "io/sweep_axis.hpp"
#include "mesh/errors.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <random>
#include <string>

using namespace thinspot;

namespace {

/// @returns whether it is taken
bool survives(const std::string& text) {
  CAPTURE(text);
  try {
    const io::SweepAxis axis = io::sweep_axis(text);
    bool sound = !axis.key.empty() && !axis.texts.empty() &&
                 (axis.has_words() || axis.numbers.size() == axis.texts.size());
    for (const std::string& value : axis.texts) sound = sound && !value.empty();
    for (const double number : axis.numbers)
      sound = sound && std::isfinite(number);
    if (!axis.has_words())
      for (const double share : {0.0, 0.3, 1.0})
        sound = sound && std::isfinite(axis.number_at(share));
    CHECK(sound);
    return true;
  } catch (const InputError& error) {
    bool told = !error.problems().empty();
    for (const Problem& p : error.problems())
      told =
          told && !p.wrong.empty() && p.wrong.find('\n') == std::string::npos;
    CHECK(told);
    return false;
  }
}

const std::array<std::string, 10> kSound{
    "anode.sheet.gap=10 mm..40 mm:31",
    "k=0.1 A..10 A:21 log",
    "k=0.2,0.4,0.8 A",
    "k=coin,plate",
    "k=[\"45 mm\",\"50 mm\"],[\"50 mm\",\"50 mm\"]",
    "k={a = \"1, 2\"},\"x\\\"y\"",
    "k=2 A +- 0.1 A,3 A",
    "k=-1e-300..1e300",
    "k=90 %,95 %",
    "k=1e15..2e15:100"};

}  // namespace

TEST_CASE("bytes by lot are an axis or refused", "[sweep]") {
  std::mt19937 engine(1);
  std::uniform_int_distribution<int> byte(0, 255), size(0, 60);
  const std::string signs = "k=.:, logmA0123456789e+-\"'[]{}\\%\xC2\xB1\t\n";
  std::uniform_int_distribution<std::size_t> sign(0, signs.size() - 1);
  int taken = 0;
  for (int n = 0; n < 6000; ++n) {
    std::string text = n % 3 == 0 ? "" : "k=";
    for (int k = size(engine); k > 0; --k)
      text += n % 2 ? signs[sign(engine)] : static_cast<char>(byte(engine));
    taken += survives(text);
  }
  CHECK(taken > 0);
}

TEST_CASE("sound ones with something wrong in them", "[sweep]") {
  std::mt19937 engine(2);
  int taken = 0, refused = 0;
  for (int n = 0; n < 6000; ++n) {
    std::string text = kSound[static_cast<std::size_t>(n) % kSound.size()];
    for (int k = 0; k < 1 + n % 3; ++k) {
      const std::size_t at = engine() % text.size();
      switch (engine() % 4) {
        case 0: text.erase(at, 1); break;
        case 1: text.insert(at, 1, text[engine() % text.size()]); break;
        case 2: text[at] = static_cast<char>(engine() % 256); break;
        default: text = text.substr(0, at) + text.substr(at / 2); break;
      }
      if (text.empty()) text = "=";
    }
    ++(survives(text) ? taken : refused);
  }
  CHECK(taken > 500);
  CHECK(refused > 500);
  for (const std::string& text : kSound) CHECK(survives(text));
}

TEST_CASE("long ones of all kinds end", "[sweep]") {
  // Quadratic work over 100,000 bytes would take minutes, and the test's limit.
  for (const std::string piece : {",", "[", "]", "\"", "1,", "..", ":1", " log",
                                  "+-", "1e9", "\\", "=", "'a',", "\xC2\xB1"}) {
    std::string text = "k=";
    while (text.size() + piece.size() <= 100'000) text += piece;
    survives(text);
    survives(text.substr(2));
    survives("k=1" + text.substr(2, 99'000) + "..2");
  }
}
