// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "units/system.hpp"

#include <udunits2.h>

#include <map>
#include <memory>
#include <mutex>
#include <stdexcept>
#include <string>
#include <utility>

#include "units/catalogue.hpp"
#include "units/text.hpp"

namespace poise::units {
namespace {

struct Free {
  void operator()(ut_system* system) const { ut_free_system(system); }
  void operator()(ut_unit* unit) const { ut_free(unit); }
  void operator()(cv_converter* converter) const { cv_free(converter); }
};
using UnitPointer = std::unique_ptr<ut_unit, Free>;

// The catalogue as a UDUNITS system. The library's parser keeps global state, so all of it stands behind one
// mutex; scales once found are plain numbers and are kept, because every printed value asks for one.
class System {
 public:
  System() {
    ut_set_error_message_handler(ut_ignore);
    system_.reset(ut_new_system());
    for (const Symbol& each : symbols()) declare(std::string(each.symbol), std::string(each.definition));
  }

  std::optional<Scale> find(std::string_view unit, Quantity quantity) {
    const std::scoped_lock lock(mutex_);
    auto key = std::pair(quantity, std::string(unit));
    if (const auto known = found_.find(key); known != found_.end()) return known->second;
    const std::optional<Scale> scale = find_with_habits(key.second, quantity);
    if (scale && found_.size() < most_kept) found_.emplace(std::move(key), *scale);
    return scale;
  }

  bool converts(std::string_view unit, std::string_view si) {
    const std::scoped_lock lock(mutex_);
    return between(std::string(unit), si).has_value();
  }

  bool parses(std::string_view unit) {
    const std::scoped_lock lock(mutex_);
    return parse(std::string(unit)) != nullptr;
  }

 private:
  static constexpr std::size_t most_kept =
      256;  // unit texts come from outside; they must not fill the memory

  void declare(const std::string& symbol, const std::string& definition) {
    const UnitPointer unit(definition.empty() ? ut_new_base_unit(system_.get())
                                              : ut_parse(system_.get(), definition.c_str(), UT_ASCII));
    if (!unit || ut_map_symbol_to_unit(symbol.c_str(), UT_ASCII, unit.get()) != UT_SUCCESS)
      throw std::logic_error("the catalogue of units cannot define " + symbol);
  }

  UnitPointer parse(const std::string& unit) const {
    return UnitPointer(is_well_formed(unit) ? ut_parse(system_.get(), unit.c_str(), UT_ASCII) : nullptr);
  }

  std::optional<Scale> between(const std::string& unit, std::string_view si) const {
    const UnitPointer from = parse(unit);
    const UnitPointer to(ut_parse(system_.get(), std::string(si).c_str(), UT_ASCII));
    if (!from || !to) return std::nullopt;
    // UDUNITS also converts a unit to its reciprocal (s to Hz); only a quotient without dimension rules that
    // out.
    const UnitPointer quotient(ut_divide(from.get(), to.get()));
    if (!quotient || !ut_is_dimensionless(quotient.get())) return std::nullopt;
    const std::unique_ptr<cv_converter, Free> converter(ut_get_converter(from.get(), to.get()));
    if (!converter) return std::nullopt;
    const double zero = cv_convert_double(converter.get(), 0.0);
    // A long way between the two points keeps the factor exact beside a zero of some hundred kelvin.
    const double far = zero == 0.0 ? 1.0 : 1024.0;
    return Scale{(cv_convert_double(converter.get(), far) - zero) / far, zero};
  }

  std::optional<Scale> find_with_habits(const std::string& unit, Quantity quantity) const {
    if (auto scale = between(unit, kind(quantity).si)) return scale;
    if (quantity == Quantity::rotation || quantity == Quantity::stroke_rate) return between(unit, "1/s");
    if (quantity != Quantity::force) return std::nullopt;
    auto weight = between(unit, "kg");
    if (weight) weight->factor *= si::gravity;
    return weight;
  }

  std::unique_ptr<ut_system, Free> system_;
  std::mutex mutex_;
  std::map<std::pair<Quantity, std::string>, Scale> found_;
};

System& the_system() {
  static System system;
  return system;
}

}  // namespace

std::optional<Scale> scale(std::string_view unit, Quantity quantity) {
  return the_system().find(unit, quantity);
}

std::string_view measured_by(std::string_view unit) {
  for (const Kind& each : kinds())
    if (each.quantity != Quantity::none && the_system().converts(unit, each.si)) return each.name;
  for (const ForeignKind& each : foreign_kinds())
    if (the_system().converts(unit, each.si)) return each.name;
  return {};
}

bool is_unit(std::string_view unit) { return the_system().parses(unit); }

}  // namespace poise::units
