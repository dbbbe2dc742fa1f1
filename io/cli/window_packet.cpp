#include "io/cli/window_packet.hpp"

#include "mesh/child_process.hpp"
#include "mesh/errors.hpp"

namespace thinspot::io::cli {

namespace {

using mesh::Bytes;

/// Known to both ends, so that neither takes another's words for the other's.
constexpr long long kMark = 0x7468696e73706f74;

}  // namespace

std::string to_bytes(const WindowPacket& packet) {
  Bytes bytes;
  bytes.put(kMark);
  bytes.put(packet.only_ask);
  for (const auto* text : {&packet.shown, &packet.save, &packet.stem})
    bytes.put_text(*text);
  bytes.put(packet.step);
  bytes.put(packet.current);
  bytes.put(packet.files.size());
  for (const auto& [name, content] : packet.files) {
    bytes.put_text(name);
    bytes.put_text(content);
  }
  return bytes.text();
}

WindowPacket packet_from(const std::string& text) {
  Bytes bytes(text);
  WindowPacket packet;
  if (text.size() < sizeof kMark || bytes.take<long long>() != kMark)
    throw InputError("thinspot-window", "is no command of its own",
                     "write: thinspot view CASE-out");
  packet.only_ask = bytes.take_flag();
  for (auto* field : {&packet.shown, &packet.save, &packet.stem})
    *field = bytes.take_text();
  packet.step = bytes.take<int>();
  packet.current = bytes.take_flag();
  for (auto left = bytes.take_count(2 * sizeof(std::size_t)); left > 0;
       --left) {
    const std::string name = bytes.take_text();
    packet.files[name] = bytes.take_text();
  }
  return packet;
}

}  // namespace thinspot::io::cli
