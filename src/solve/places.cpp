// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "solve/places.hpp"

namespace poise::solve {

Places::Places(const Circuit& circuit, const Layout& layout) {
  for (std::size_t p = 0; p < circuit.parts.size(); ++p) {
    const PlacedPart& part = circuit.parts[p];
    PartPlace place{part.laws.numbers.get(), part.laws.answer, part.laws.jacobian};
    place.first = static_cast<int>(where.size());
    place.first_state = layout.first_state[p];
    place.oil = static_cast<signed char>(part.oil.size());
    place.bodies = static_cast<signed char>(part.body.size());
    place.states = static_cast<signed char>(part.kind->states.size());
    place.drives = static_cast<signed char>(part.kind->inputs.size());
    place.modes = static_cast<signed char>(part.kind->modes.size());
    where.insert(where.end(), part.oil.begin(), part.oil.end());
    where.insert(where.end(), part.body.begin(), part.body.end());
    parts.push_back(place);
  }
  for (const OilNode& node : circuit.nodes) {
    nodes.push_back({node.volume, node.wall, node.band, static_cast<int>(swept.size()),
                     static_cast<int>(node.swept.size()), node.free_surface});
    for (const auto& [body, area] : node.swept) swept.push_back({layout.position(body), area});
  }
  for (const BodyNode& body : circuit.bodies) masses.push_back(body.mass);
}

}  // namespace poise::solve
