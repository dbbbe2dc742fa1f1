#pragma once

#include <string>
#include <vector>

// What the library knows of metals to be plated, as plain data; io reads it
// from cases/library.
namespace thinspot::solver {

/// One thing that is done to the part.
struct Task {
  std::string name;
  std::string what;               ///< in a few words
  std::string how;                ///< the solution, and what to look for
  std::string time, temperature;  ///< in words
  bool rinse = false;             ///< afterwards
  std::string why;                ///< what goes wrong without it
  std::string source;
};

/// A kind of solution.
struct Coating {
  std::string name;                               ///< "acid copper"
  std::vector<std::string> metals;                ///< that it deposits
  bool asks_acid = false, asks_alkaline = false;  ///< neither: any
  std::vector<std::string> words;  ///< any of them in the solution's name
  bool current_on = false;         ///< before the part goes in
  std::string transfer;            ///< longest time wet until then
  bool reactivate = false;         ///< after the current was off in it
  std::string off;                 ///< what the current being off does
  std::string reactivation;        ///< name of a task
  std::vector<std::string> then;   ///< tasks before the next layer
  std::string refuse;              ///< why it is not for a small workshop
  std::string source;
};

enum class Verdict { holds, needs_strike, will_not_hold, do_not_plate };

/// How one base metal is made ready for some kinds of solution.
struct Route {
  std::string base;
  std::vector<std::string> coatings;  ///< "any": every other
  Verdict verdict{};
  std::string why;
  std::vector<std::string> tasks;
  std::vector<std::string> strike;  ///< kinds of solution that do
  std::string remark;
  std::string source;
};

struct BaseMetal {
  std::string name;
  std::vector<std::string> aliases;
  double least_density = 0, most_density = 0;  ///< [kg/m3]
  std::string magnet, filed;                   ///< how to know it
  std::string standard, standard_title;        ///< empty: none known
  std::string peels;
  std::vector<std::string> traits;
  std::string refuse;  ///< why not to plate it at all
  std::string bake;    ///< against hydrogen, and when
  std::string source;
};

struct Adhesion {
  std::string text, standard;
};

/// How to find out what a part is made of.
struct Identify {
  std::string magnet, file, weight, refuse, source;
};

struct BaseMetals {
  std::vector<BaseMetal> metals;
  std::vector<Route> routes;
  std::vector<Task> tasks;
  std::vector<Coating> coatings;
  Adhesion adhesion;
  Identify identify;
};

/// The metal of that name or alias, else the one whose alias is the longest
/// run of whole words in the text. @returns nullptr where there is none.
const BaseMetal* find_base(const BaseMetals& all, const std::string& text);

/// @returns nullptr where there is none of that name.
const Task* find_task(const BaseMetals& all, const std::string& name);
const Coating* find_coating(const BaseMetals& all, const std::string& name);

/// The way from a base metal to a kind of solution.
/// @returns nullptr where there is none.
const Route* find_route(const BaseMetals& all, const std::string& base,
                        const std::string& coating);

}  // namespace thinspot::solver
