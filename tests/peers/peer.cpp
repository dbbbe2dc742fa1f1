#include "tests/peers/peer.hpp"

#include "tests/scratch.hpp"

#include <cstdlib>
#include <map>
#include <sstream>

namespace thinspot::tests {

namespace {

// From the script's millimetres to metres.
constexpr double kPerMetre = 1e3;  // A/mm in A/m
constexpr double kDensity = 1e6;   // A/mm2 in A/m2

std::string last_lines(const std::string& text, std::size_t count) {
  std::size_t from = text.size();
  for (std::size_t k = 0; k <= count && from != std::string::npos && from > 0;
       ++k)
    from = text.rfind('\n', from - 1);
  return from == std::string::npos ? text : text.substr(from);
}

/// The columns, one after the other.
Eigen::MatrixXd columns(const std::vector<double>& values, std::size_t count) {
  const auto cols = static_cast<Eigen::Index>(count);
  const auto rows = static_cast<Eigen::Index>(values.size()) / cols;
  return Eigen::Map<const Eigen::MatrixXd>(values.data(), rows, cols);
}

PeerAnswer read(const std::string& said, const PeerProblem& problem) {
  const std::size_t m = problem.resistance.size();
  std::map<std::string, std::vector<double>> values;
  std::istringstream in(said);
  double value = 0;
  for (std::string word; in >> word >> value;) values[word].push_back(value);
  REQUIRE(values["unknowns"].size() == 1);
  REQUIRE(values["current"].size() == m * m);
  REQUIRE(values["window"].size() == problem.windows.size() * m);
  REQUIRE(values["measure"].size() == m);
  const bool whole = problem.axisymmetric;
  PeerAnswer a;
  a.unknowns = values["unknowns"][0];
  a.current = (whole ? 1 : kPerMetre) * columns(values["current"], m);
  a.windows = kDensity * columns(values["window"], m);
  a.measure = columns(values["measure"], 1).col(0) /
              (whole ? kPerMetre * kPerMetre : kPerMetre);
  return a;
}

}  // namespace

bool peer_is_here() {
  return std::system("command -v FreeFem++ >/dev/null 2>&1") == 0;
}

PeerAnswer ask_peer(const PeerProblem& problem, const Fineness& fineness) {
  const Scratch folder;
  put(folder / "cell.edp", peer_script(problem, fineness));
  const std::string command = "cd '" + folder.path().string() +
                              "' && timeout 120 FreeFem++ -nw -v 0 cell.edp "
                              ">said 2>&1 </dev/null";
  const int status = std::system(command.c_str());
  const std::string said = content(folder / "said");
  INFO("FreeFem++ said last: " << last_lines(said, 12));
  REQUIRE(status == 0);
  REQUIRE(said.find("lost") == std::string::npos);  // edges of the boundary
  return read(content(folder / "answer"), problem);
}

}  // namespace thinspot::tests
