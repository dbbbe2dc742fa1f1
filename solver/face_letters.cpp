#include "solver/face_letters.hpp"

namespace thinspot::solver {

std::string face_letter(std::size_t face) {
  std::string letters;
  for (std::size_t rest = face + 1; rest > 0; rest = (rest - 1) / 26)
    letters.insert(letters.begin(), static_cast<char>('A' + (rest - 1) % 26));
  return letters;
}

}  // namespace thinspot::solver
