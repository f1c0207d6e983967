#pragma once

#include <optional>
#include <string>
#include <vector>

#include <dampline/material/stock.hpp>
#include <dampline/method/book.hpp>
#include <dampline/units/quantity.hpp>

#include "options.hpp"

/// The method that `dampline sheet` takes a sheet through.
namespace dampline::cli {

struct MethodWords {
  std::optional<std::string> method;
  std::optional<std::string> methods;  ///< a file of one's own
  std::optional<units::Duration> soak, rest;
  std::optional<units::Temperature> water;
  std::optional<units::Grammage> film;
  std::optional<int> blot;
};

void add_method_options(Options& options, MethodWords& words);

struct SheetMethod {
  std::vector<method::Stage> stages;
  std::size_t wet_stages = 0;  ///< of them until the paper is left alone
  method::Purpose purpose = method::Purpose::damping;
  std::vector<std::string> defaults_used;
  std::vector<std::string> warnings;
};

/// The stages for a paper, what the command line says in place of the book's numbers. Failure when
/// it says something that the method has no use for.
[[nodiscard]] SheetMethod sheet_method(const MethodWords& words, const material::Stock& stock,
                                       const method::Book& book);

}  // namespace dampline::cli
