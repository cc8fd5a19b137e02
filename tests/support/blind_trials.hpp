// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Machines with one thing wrong, or nothing, read with instruments that are off, and what a diagnosis that
// does not know it says.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "diagnose/belief.hpp"

namespace poise::blind_trials {

/// One machine: its values off at random within their tolerances.
struct Machine {
  std::size_t course = diagnose::Suspect::sound;  ///< what is wrong with it
  double t = 0.0;                                 ///< and its size
  long number = 0;                                ///< of the spread, and the seed of the instruments' errors
};

/// The machines of a job's trials: each thing that may be wrong at a slight, a middle and a grave size, drawn
/// within thirds; and sound ones.
std::vector<Machine> machines_of(const diagnose::AtlasWork& work, long sound_ones, std::uint64_t seed);

/// What a machine shows, SI, by watch.
std::vector<double> shows(const diagnose::AtlasWork& work, const Machine& machine, std::uint64_t seed);

/// What people read of it on the usual sheet: every gauge off within its class, by the same all its life
/// (four fifths, after `seed`) and anew at each reading (a fifth, after `occasion`); other instruments anew
/// at each.
diagnose::Readings read_off(const diagnose::AtlasWork& work, const std::vector<std::size_t>& sheet,
                            const std::vector<double>& shows, std::uint64_t seed, std::uint64_t occasion = 0);

/// How a diagnosis went.
struct Result {
  std::string job, truth, first;  ///< names of the fault and of the first suspect
  Machine machine;
  std::size_t rank = 0;       ///< of the group that has the truth, from 1
  std::size_t in_group = 0;   ///< suspects of the first group
  bool first_itself = false;  ///< the first suspect is the truth
  bool shows = false;  ///< a reading is out of its band by half of it, or its moment comes or fails unlike
                       ///< the sound machine's
  bool called_sound = false;  ///< the first suspect is that nothing is wrong
};
Result judge(const diagnose::Atlas& atlas, const Machine& machine, const diagnose::Belief& belief);

/// A fault that shows is found where the first group has it and it was not called sound.
bool found(const Result& result);

}  // namespace poise::blind_trials
