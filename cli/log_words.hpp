#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <dampline/journal/kinds.hpp>

#include "command.hpp"

/// The words after `dampline log`.
namespace dampline::cli {

/// One entry of a kind, from its words to the disk.
int log_entry(const journal::KindAbout& kind, Arguments args, Streams io);

/// Every word that may follow `log`.
[[nodiscard]] std::vector<std::string> log_words();

int log_list(Arguments args, Streams io);
int log_card(Arguments args, Streams io);
int log_compare(Arguments args, Streams io);
int log_export(Arguments args, Streams io);
int log_import(Arguments args, Streams io);

}  // namespace dampline::cli
