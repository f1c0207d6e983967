#include <algorithm>
#include <ostream>

#include <dampline/journal/card.hpp>
#include <dampline/journal/write.hpp>
#include <dampline/planner/craft.hpp>
#include <dampline/report/characters.hpp>
#include <dampline/units/suggest.hpp>

#include "data_files.hpp"
#include "input_file.hpp"
#include "journal_entry.hpp"
#include "journal_file.hpp"
#include "log_words.hpp"

namespace dampline::cli {
namespace {

using journal::Field;

std::string option_name(const Field& field) {
  std::string out(field.name);
  std::replace(out.begin(), out.end(), '_', '-');
  return out;
}

std::string operand_name(const Field& field) {
  std::string out;
  for (const char c : field.name) out += c >= 'a' && c <= 'z' ? static_cast<char>(c - 32) : c;
  return out;
}

std::string help_of(const Field& field) {
  std::string out(field.help);
  if (field.words.empty()) return out + ", like \"" + std::string(field.example) + "\"";
  const std::vector<std::string> words(field.words.begin(), field.words.end());
  return out + ": " + units::listed(words, "");
}

// The words of one kind: what must be said stands in order, the last of it in as many words as
// typed; the rest are options.
class KindWords {
 public:
  KindWords(const journal::KindAbout& kind, Options& options) : kind_(kind) {
    said_.resize(kind.fields.size());
    single_.resize(kind.fields.size());
    const Field* last = nullptr;
    for (const auto& field : kind.fields) {
      if (field.required) last = &field;
    }
    for (std::size_t i = 0; i < kind.fields.size(); ++i) {
      const auto& field = kind.fields[i];
      if (&field == last) {
        options.operands(operand_name(field), many_, help_of(field));
        last_ = i;
      } else if (field.required) {
        options.operand(operand_name(field), single_[i], help_of(field));
      } else {
        const auto letter = field.letter == 0 ? "" : std::string(",") + field.letter;
        options.text(option_name(field) + letter, said_[i], operand_name(field), help_of(field));
      }
    }
  }

  journal::Record record(Streams& io) {
    for (std::size_t i = 0; i < single_.size(); ++i) {
      if (!single_[i].empty()) said_[i] = single_[i];
    }
    if (!many_.empty()) said_[last_] = joined(io);
    auto found = journal::made(kind_.name, [this](const Field& f) {
      return said_[static_cast<std::size_t>(&f - kind_.fields.data())];
    });
    if (const auto* faults = std::get_if<std::vector<journal::Fault>>(&found)) {
      throw refused(faults->front());
    }
    return std::move(std::get<journal::Record>(found));
  }

 private:
  // "-" alone: what standard input holds, lines and all.
  std::string joined(Streams& io) {
    std::string out;
    if (many_.size() == 1 && many_[0] == "-") {
      out = read_input("-", io, 64 * 1024);
      while (out.ends_with('\n')) out.pop_back();
      return out;
    }
    for (const auto& word : many_) out += (out.empty() ? "" : " ") + word;
    return out;
  }

  Failure refused(const journal::Fault& fault) const {
    for (std::size_t i = 0; i < kind_.fields.size(); ++i) {
      const auto& field = kind_.fields[i];
      if (field.name != fault.field) continue;
      const auto name = field.required ? operand_name(field) : "--" + option_name(field);
      if (!said_[i])
        return {exit_status::usage, name + " is " + fault.refusal.what, fault.refusal.help};
      const auto said = safe(*said_[i]);
      return {exit_status::usage, name + " \"" + said + "\": " + fault.refusal.what,
              fault.refusal.help};
    }
    return {exit_status::usage, fault.refusal.what, fault.refusal.help};
  }

  static std::string safe(const std::string& text) {
    return report::shortened(report::clean(text), 60);
  }

  const journal::KindAbout& kind_;
  std::vector<std::optional<std::string>> said_;
  std::vector<std::string> single_;
  std::vector<std::string> many_;
  std::size_t last_ = 0;
};

std::string usage_of(const journal::KindAbout& kind) {
  std::string out;
  for (const auto& field : kind.fields) {
    if (field.required) out += operand_name(field) + " ";
  }
  return out + "[OPTIONS]";
}

// A step nearly of the name of one that is known is likely a slip; it is stored as said.
void doubt_step(const journal::Record& record, Streams& io) {
  const journal::StepMark* mark = std::get_if<journal::Start>(&record);
  if (mark == nullptr) mark = std::get_if<journal::Finish>(&record);
  if (mark == nullptr) return;
  try {
    const auto craft = planner::read_craft(read_data("steps.toml"), "steps.toml");
    if (craft.steps.contains(mark->step)) return;
    std::vector<std::string> names;
    for (const auto& [name, step] : craft.steps) names.push_back(name);
    if (const auto near = units::nearest(mark->step, names)) {
      io.err << "dampline log: no plan has a step \"" << report::clean(mark->step)
             << "\"; stored as said\nhelp: did you mean " << *near << "?\n";
    }
  } catch (const std::exception&) {
    // Without the data file there is nothing to compare with.
  }
}

}  // namespace

int log_entry(const journal::KindAbout& kind, Arguments args, Streams io) {
  EntryWords words;
  Options options({.command = "log " + std::string(kind.name),
                   .purpose = std::string(kind.purpose),
                   .usage = usage_of(kind),
                   .examples = {"dampline log " + std::string(kind.example)}});
  KindWords said(kind, options);
  add_entry_options(options, words);
  if (!options.parse(args, io)) return exit_status::done;
  const auto record = said.record(io);
  const auto path = journal_path(words.journal);
  auto entry = begun_entry(words, path, io);
  entry.record = record;
  if (const auto tail = append_to_journal(path, journal::written(entry))) {
    io.err << told(path, *tail);
  }
  doubt_step(record, io);
  const auto shown = [&io](const std::string& text) {
    return io.utf8 ? report::clean(text) : report::ascii(report::clean(text));
  };
  io.out << "logged " << journal::clock_text(entry.time) << "  " << kind.name << ' '
         << shown(journal::summary(entry)) << "\n  "
         << (entry.session.empty() ? std::string("a session without a title (--session TITLE)")
                                   : shown(entry.session))
         << ", " << journal::date_text(entry.day)
         << (entry.stock.empty() ? "" : ", " + shown(entry.stock)) << '\n';
  return exit_status::done;
}

}  // namespace dampline::cli
