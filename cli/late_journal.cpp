#include "late_journal.hpp"

#include <algorithm>

#include <dampline/journal/measured.hpp>
#include <dampline/journal/steps.hpp>
#include <dampline/planner/history.hpp>
#include <dampline/session/zone.hpp>
#include <dampline/units/text.hpp>

namespace dampline::cli {
namespace {

using planner::HalfMinutes;

class Gathering {
 public:
  Gathering(const journal::Journal& journal, const session::Session& session)
      : file_(journal.file), s_(session) {}

  JournalNews of(journal::Held held, const std::optional<HalfMinutes>& until) {
    const auto all = held.entries.size();
    std::erase_if(held.entries,
                  [&](const journal::Entry* e) { return until && of_day(e->time) > *until; });
    if (held.entries.empty()) return {};
    out_.entries = static_cast<int>(held.entries.size());
    out_.latest = of_day(held.entries.back()->time);
    took_ = journal::steps(held);
    for (std::size_t i = 0; i < took_.size(); ++i) step(held, i);
    for (const auto* entry : held.entries) {
      if (const auto* print = std::get_if<journal::Print>(&entry->record)) pulled(*entry, *print);
    }
    say_which(held, all);
    weighed(held);
    return std::move(out_);
  }

 private:
  [[nodiscard]] HalfMinutes of_day(const journal::Stamp& time) const {
    return std::chrono::floor<HalfMinutes>(time.at - session::opening(s_.day));
  }
  [[nodiscard]] std::string place(int line) const { return file_ + ":" + std::to_string(line); }

  static int line_of(const journal::Held& held, const journal::StepMark* mark) {
    for (const auto* e : held.entries) {
      const auto* start = std::get_if<journal::Start>(&e->record);
      const auto* finish = std::get_if<journal::Finish>(&e->record);
      if (start == mark || finish == mark) return e->line;
    }
    return 0;
  }

  void step(const journal::Held& held, std::size_t i) {
    const auto& took = took_[i];
    planner::SaidStep said;
    said.name = took.mark->step;
    said.plate = took.mark->plate;
    said.print = took.mark->print;
    said.written = place(line_of(held, took.mark));
    if (took.from) said.start = of_day(*took.from);
    if (took.until) said.end = of_day(*took.until);
    if (said.start && !said.end) {
      for (std::size_t k = i + 1; k < took_.size(); ++k) {
        const auto& next = took_[k];
        const bool other_hands =
            next.mark->person && took.mark->person && *next.mark->person != *took.mark->person;
        if (!next.from || other_hands) continue;
        said.before = of_day(*next.from);
        break;
      }
      said.running = !said.before;
    }
    out_.steps.push_back(std::move(said));
  }

  // A print that is written down has been pulled, whether or not its step was.
  void pulled(const journal::Entry& entry, const journal::Print& print) {
    if (print.verdict == journal::Print::Verdict::spoiled) {
      out_.spoiled[print.print] = place(entry.line);
    }
    const auto name = "print-" + std::to_string(print.print);
    const bool known = std::any_of(out_.steps.begin(), out_.steps.end(), [&](const auto& s) {
      return s.name.starts_with(name) || (s.print == print.print && s.name == "pull");
    });
    if (known) return;
    planner::SaidStep said;
    said.name = name;
    said.end = of_day(entry.time);
    said.written = place(entry.line);
    out_.steps.push_back(std::move(said));
  }

  void say_which(const journal::Held& held, std::size_t all) {
    int first = held.entries.front()->line;
    int last = first;
    for (const auto* e : held.entries) {
      first = std::min(first, e->line);
      last = std::max(last, e->line);
    }
    const auto n = held.entries.size();
    const auto lines = first == last
                           ? ":" + std::to_string(first)
                           : ", lines " + std::to_string(first) + " to " + std::to_string(last);
    std::string text = "What is done is from " + file_ + lines + ": " + std::to_string(n) +
                       (n == 1 ? " entry" : " entries") + " of this session";
    const auto running = std::count_if(out_.steps.begin(), out_.steps.end(),
                                       [](const auto& s) { return s.running; });
    text += ", " + std::to_string(static_cast<int>(out_.steps.size()) - static_cast<int>(running)) +
            " of things done";
    if (running > 0) text += ", " + std::to_string(running) + " of what goes on";
    if (!out_.spoiled.empty())
      text += ", " + std::to_string(out_.spoiled.size()) + " of spoiled prints";
    text += ".";
    if (all > n) text += " " + std::to_string(all - n) + " later ones are left out.";
    out_.notes.insert(out_.notes.begin(), text);
  }

  void weighed(const journal::Held& held) {
    for (const auto& taken : journal::weighings(held)) {
      if (taken.weighing->state == journal::Weighing::When::dry) continue;
      std::string text = place(taken.entry->line) + ": ";
      text += taken.weighing->sheet ? "sheet " + std::to_string(*taken.weighing->sheet)
                                    : std::string("a sheet");
      text += " weighed " + units::text(taken.weighing->mass) + " at " +
              planner::clock_time(s_.day, of_day(taken.entry->time));
      if (taken.moisture) text += ", " + units::text(*taken.moisture);
      text += ". The weight is not used: the plan goes by the sheet's simulation.";
      out_.notes.push_back(std::move(text));
    }
  }

  std::string file_;
  const session::Session& s_;
  std::vector<journal::Took> took_;
  JournalNews out_;
};

}  // namespace

JournalNews news_of(const journal::Journal& journal, const session::Session& session,
                    const std::optional<HalfMinutes>& until) {
  for (auto& held : journal::sessions(journal.entries)) {
    if (held.day != session.day.date || held.title != session.title) continue;
    return Gathering(journal, session).of(std::move(held), until);
  }
  return {};
}

}  // namespace dampline::cli
