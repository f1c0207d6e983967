#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <variant>

#include <dampline/journal/blocks.hpp>
#include <dampline/journal/card.hpp>
#include <dampline/journal/compare.hpp>
#include <dampline/journal/kinds.hpp>
#include <dampline/journal/read.hpp>
#include <dampline/journal/rows.hpp>
#include <dampline/journal/write.hpp>

#include "claim.hpp"

namespace {

using dampline::tests::claim;
namespace journal = dampline::journal;
namespace session = dampline::session;

// What was read is written, and read again, alike.
void comes_back(const journal::Entry& entry) {
  if (std::holds_alternative<journal::Unknown>(entry.record) || !entry.others.empty()) return;
  const auto text = journal::written(entry);
  if (text.size() > journal::largest_block) return;  // escapes may make it longer than it was
  const auto again = journal::read(text, "again");
  claim(again.entries.size() == 1 && again.errors.empty() && !again.torn, "an entry comes back");
  const auto& back = again.entries[0];
  claim(back.time == entry.time && back.session == entry.session && back.day == entry.day &&
            back.stock == entry.stock && back.remark == entry.remark,
        "when and where come back");
  claim(journal::written(back) == text, "what was written is written again");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  for (const auto& block : journal::blocks_of(text)) {
    claim(block.begin < block.end && block.end <= text.size(), "blocks lie in the text");
  }
  const auto found = journal::read(text, "fuzz.toml");
  for (const auto& e : found.errors) {
    claim(!e.what.empty() && !e.help.empty(), "a message says what and how to mend it");
    claim(!session::rendered(e).empty(), "a message can be shown");
  }
  if (found.torn) {
    claim(found.torn->begin < text.size(), "a torn tail has a beginning");
    const auto kept = journal::read(text.substr(0, found.torn->begin), "fuzz.toml");
    claim(kept.entries.size() <= found.entries.size(), "without its tail it has no more entries");
  }
  for (const auto& entry : found.entries) {
    comes_back(entry);
    claim(journal::row(entry).size() == journal::columns().size(), "a cell a column");
  }
  const auto held = journal::sessions(found.entries);
  for (std::size_t i = 0; i < held.size(); ++i) {
    (void)journal::card(held[i]);
    for (const auto& d : journal::compare(held[0], held[i]).differ) {
      claim(std::isfinite(d.size) && d.size >= 0, "differences have a size");
    }
  }
  return 0;
}
