#include "io/sweep_request.hpp"

#include "mesh/child_process.hpp"

namespace thinspot::io {

namespace {

void put_texts(mesh::Bytes& out, const std::vector<std::string>& texts) {
  out.put(texts.size());
  for (const std::string& text : texts) out.put_text(text);
}

std::vector<std::string> take_texts(mesh::Bytes& in) {
  std::vector<std::string> texts;
  for (auto n = in.take_count(sizeof(std::size_t)); n > 0; --n)
    texts.push_back(in.take_text());
  return texts;
}

}  // namespace

std::string to_bytes(const SweepRequest& r) {
  mesh::Bytes out;
  out.put_text(r.file);
  out.put_text(r.text);
  out.put_text(r.drawings);
  put_texts(out, r.overrides);
  put_texts(out, r.vary);
  out.put(r.sample);
  out.put(r.seed);
  out.put(r.sobol);
  out.put(r.bands);
  out.put(r.longest);
  return out.text();
}

SweepRequest sweep_request(const std::string& bytes) {
  mesh::Bytes in(bytes);
  SweepRequest r;
  r.file = in.take_text();
  r.text = in.take_text();
  r.drawings = in.take_text();
  r.overrides = take_texts(in);
  r.vary = take_texts(in);
  r.sample = in.take<std::uint64_t>();
  r.seed = in.take<std::uint64_t>();
  r.sobol = in.take_flag();
  r.bands = in.take_flag();
  r.longest = in.take<unsigned>();
  return r;
}

}  // namespace thinspot::io
