// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <initializer_list>
#include <string_view>
#include <utility>

#include "study/fault_place.hpp"

namespace poise::study {

/// The chapters of the list, each in its own file: what they add to it, and the job with one of theirs in.
void add_faults_of_rooms(const Job& job, FaultList& list);
void add_faults_of_circuit(const Job& job, const Trace* nominal, FaultList& list);
void add_faults_of_oil(const Job& job, FaultList& list);
void add_faults_of_power(const Job& job, const Trace* nominal, FaultList& list);
void add_faults_of_people(const Job& job, FaultList& list);

/// Each changes the job in place and says whether its values still go together.
bool put_room_fault(Job& job, const FaultPlace& place, double t);
bool put_circuit_fault(Job& job, const FaultPlace& place, double t);
bool put_oil_fault(Job& job, const FaultPlace& place, double t);
bool put_power_fault(Job& job, const FaultPlace& place);
bool put_people_fault(Job& job, const FaultPlace& place);
bool put_wrong_setting(Job& job, const FaultPlace& place, double t);

/// The size in words and the job's units.
std::string room_change(const Job& job, const FaultPlace& place, double t);
/// The same as the job states it; empty where a factor says it.
std::string room_stated(const Job& job, const FaultPlace& place);
std::string circuit_change(const Job& job, const FaultPlace& place, double t);
std::string oil_change(const Job& job, const FaultPlace& place, double t);
std::string setting_change(const Job& job, const FaultPlace& place, double t);

/// Where the grave size is past what goes together, the gravest that does is taken for it; false where none
/// does.
bool within_what_goes_together(const Job& job, FaultPlace& place);

/// A flow in the unit that people have for one of its size: drips in cm3/min where others are in L/min.
std::string show_flow(double value, const units::World& world);

/// Adds a part of a kind behind those of the plan; values that are not named have their usual ones.
int add_part(Job& job, std::string_view kind, std::string tag,
             std::initializer_list<std::pair<std::string_view, double>> values);

/// Every command of steps and controls to one parameter of one part.
void for_each_command(Job& job, int part, int parameter, const std::function<void(Command&)>& change);
/// Whether any of them brings it to something other than nothing.
bool commands_set_it(const Job& job, int part, int parameter);

/// Whether a part's values go together as well as those of the job do.
bool goes_together(const PlannedPart& part);

/// The middle of a step, s after its beginning.
double middle_of(const Job& job, const Trace* nominal, int step);
/// Cuts a step in two; the second half keeps what it waits for and has no commands.
void split_step(Job& job, int step, double time);

/// The input of a part that is this parameter, or −1.
int input_of(const Kind& kind, std::string_view parameter);

}  // namespace poise::study
