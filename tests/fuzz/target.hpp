#pragma once

#include "mesh/errors.hpp"
#include "mesh/outline.hpp"

#include <string>
#include <string_view>

// What a fuzz target is, and what it asks of the code under test. Each
// NAME_fuzz.cpp defines one_input(); engine.cpp hands it to libFuzzer,
// replay.cpp feeds it the kept corpus.
namespace thinspot::fuzz {

/// Feeds whatever these bytes are to the code under test.
/// @returns false where they are no input of its kind, or would take too long
///          for what they tell: not worth keeping
bool one_input(std::string_view bytes);

/// Ends the process, saying what does not hold: a finding.
void require(bool holds, std::string_view what);

/// The words of a refusal: at least one problem; each says what is wrong, on
/// one line of sound UTF-8 that is not too long to be read.
void require_clear(const InputError& error);

/// Finite points, closed loops; an area, where the size is one of a solid.
void require_sound(const mesh::Outline& outline);
/// The same, and faces and notes on one line each.
void require_sound(const mesh::DrawnOutline& drawn);

/// The first byte of an input, which chooses among so many ways, and the rest.
struct Chosen {
  std::size_t way = 0;
  std::string_view rest;
};
/// Letters from 'a', so that the corpus can be read and written by hand; any
/// other byte chooses too.
Chosen chosen(std::string_view bytes, std::size_t ways);

/// Whole content of a file of the tree, by its name from the root.
std::string tree_file(const std::string& name);

}  // namespace thinspot::fuzz
