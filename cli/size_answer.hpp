#pragma once

#include <optional>
#include <string>
#include <vector>

#include <dampline/size/advice.hpp>
#include <dampline/size/marks.hpp>
#include <dampline/size/order.hpp>

/// What `dampline size` finds out, and the ways it is shown.
namespace dampline::cli {

struct TissueAnswer {
  std::string stock;
  std::string plate;
  size::Tissue tissue;
};

struct SizeAnswer {
  std::string title;
  size::Printing printing;
  size::Answer answer;
  size::Way asked = size::Way::held;   ///< what the session does between plates
  size::Order order;                   ///< indices into printing.plates
  std::vector<std::string> treatment;  ///< how the sheet is damped, a sentence each
  std::vector<TissueAnswer> tissues;
  std::optional<size::Marks> along;
  std::optional<size::Marks> across;
  std::vector<std::string> warnings;
  std::vector<std::string> defaults_used;
};

[[nodiscard]] std::string size_json(const SizeAnswer& answer);
[[nodiscard]] std::string size_text(const SizeAnswer& answer, int columns, bool utf8);

/// "grain along the long side", and what is laid to what: shared by both.
[[nodiscard]] std::string grain_words(size::Grain grain);
[[nodiscard]] std::string laying_words(const size::Printing& printing);

}  // namespace dampline::cli
