#include "io/phrases.hpp"

#include <string_view>

namespace thinspot::io {

namespace {

std::string strung(const std::vector<std::string>& items,
                   std::string_view before_last) {
  std::string text;
  for (std::size_t k = 0; k < items.size(); ++k) {
    if (k > 0) text += k + 1 == items.size() ? before_last : ", ";
    text += items[k];
  }
  return text;
}

}  // namespace

std::string with_or(const std::vector<std::string>& items) {
  return strung(items, " or ");
}

std::string with_and(const std::vector<std::string>& items) {
  return strung(items, " and ");
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

}  // namespace thinspot::io
