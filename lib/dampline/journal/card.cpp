#include <algorithm>
#include <cmath>
#include <map>

#include <dampline/journal/card.hpp>
#include <dampline/journal/kinds.hpp>
#include <dampline/journal/measured.hpp>
#include <dampline/journal/steps.hpp>
#include <dampline/session/zone.hpp>
#include <dampline/units/text.hpp>

namespace dampline::journal {
namespace {

// What follows from an entry stands before the remark.
CardLine line(const Entry& entry, const std::string& follows = {}) {
  if (follows.empty()) return {clock_text(entry.time), summary(entry)};
  auto bare = entry;
  bare.remark.reset();
  return {clock_text(entry.time),
          summary(bare) + ": " + follows + (entry.remark ? ", note " + *entry.remark : "")};
}

CardPart paper(const Held& held) {
  CardPart part{"Paper", {}};
  for (const auto* entry : held.entries) {
    const auto& stock = entry->stock;
    const auto same = [&](const CardLine& l) { return l.text == stock; };
    if (stock.empty() || std::any_of(part.lines.begin(), part.lines.end(), same)) continue;
    part.lines.push_back({"", stock});
  }
  return part;
}

CardPart weighed(const Held& held) {
  CardPart part{"Weighed", {}};
  for (const auto& taken : weighings(held)) {
    part.lines.push_back(
        line(*taken.entry, taken.moisture ? units::text(*taken.moisture) + " above dry" : ""));
  }
  return part;
}

CardPart marks(const Held& held) {
  CardPart part{"Between the marks", {}};
  for (const auto& grown : lengths(held)) {
    const auto percent = grown.growth ? units::text(*grown.growth) : "";
    const bool plus = !percent.empty() && !percent.starts_with('-');
    part.lines.push_back(line(*grown.entry, (plus ? "+" : "") + percent));
  }
  return part;
}

// "wipe key: 5 times, 11 to 14 min"
struct Lengths {
  std::vector<double> minutes;
  std::vector<std::string> open;
};

CardPart steps_done(const Held& held) {
  CardPart part{"Steps", {}};
  std::vector<std::string> order;
  std::map<std::string, Lengths> found;
  for (const auto& took : steps(held)) {
    const auto name = took.mark->step + (took.mark->plate ? " " + *took.mark->plate : "");
    if (!found.contains(name)) order.push_back(name);
    auto& lengths = found[name];
    if (const auto length = took.length()) {
      lengths.minutes.push_back(units::in_minutes(*length));
    } else if (took.from) {
      lengths.open.push_back("begun " + clock_text(*took.from));
    } else {
      lengths.open.push_back("done " + clock_text(*took.until));
    }
  }
  for (const auto& name : order) {
    const auto& [minutes, open] = found[name];
    std::string text = name + ":";
    if (!minutes.empty()) {
      const auto [least, most] = std::minmax_element(minutes.begin(), minutes.end());
      const auto low = units::text(units::minutes(std::round(*least * 10) / 10));
      const auto high = units::text(units::minutes(std::round(*most * 10) / 10));
      if (minutes.size() > 1) text += " " + std::to_string(minutes.size()) + " times,";
      text += " " + (low == high ? low : low + " to " + high);
    }
    for (const auto& one : open) text += (text.ends_with(':') ? " " : ", ") + one;
    part.lines.push_back({"", std::move(text)});
  }
  return part;
}

CardPart press(const Held& held) {
  CardPart part{"Press, as it shows", {}};
  for (const auto* entry : held.entries) {
    const auto* p = std::get_if<Press>(&entry->record);
    if (p == nullptr) continue;
    const double apart = std::abs(p->left - p->right);
    part.lines.push_back(line(
        *entry, apart == 0 ? "the ends alike" : "the ends " + units::shortest(apart) + " apart"));
  }
  return part;
}

CardPart prints(const Held& held) {
  CardPart part{"Prints", {}};
  int good = 0;
  int spoiled = 0;
  for (const auto* entry : held.entries) {
    const auto* p = std::get_if<Print>(&entry->record);
    if (p == nullptr) continue;
    ++(p->verdict == Print::Verdict::good ? good : spoiled);
    if (p->verdict == Print::Verdict::good && !p->why && !entry->remark) continue;
    part.lines.push_back(line(*entry));
  }
  if (good + spoiled > 0) {
    part.lines.insert(part.lines.begin(), {"", std::to_string(good) + " good, " +
                                                   std::to_string(spoiled) + " spoiled"});
  }
  return part;
}

// Entries of one kind as they are.
template <class Kind>
CardPart all_of(const char* name, const Held& held) {
  CardPart part{name, {}};
  for (const auto* entry : held.entries) {
    if (std::holds_alternative<Kind>(entry->record)) part.lines.push_back(line(*entry));
  }
  return part;
}

CardPart not_known(const Held& held) {
  CardPart part{"Not known to this version", {}};
  for (const auto* entry : held.entries) {
    if (!std::holds_alternative<Unknown>(entry->record)) continue;
    part.lines.push_back(
        {clock_text(entry->time), std::string(kind_name(entry->record)) + ": " + summary(*entry)});
  }
  return part;
}

}  // namespace

std::string clock_text(const Stamp& time) {
  return session::rfc3339(time.offset, time.at).substr(11, 5);
}

std::vector<CardPart> card(const Held& held) {
  std::vector<CardPart> parts{paper(held),
                              all_of<Air>("Air", held),
                              weighed(held),
                              marks(held),
                              all_of<Touch>("Touch", held),
                              steps_done(held),
                              all_of<Ink>("Ink", held),
                              press(held),
                              all_of<Felt>("Blankets", held),
                              prints(held),
                              all_of<Note>("Notes", held),
                              not_known(held)};
  std::erase_if(parts, [](const CardPart& p) { return p.lines.empty(); });
  return parts;
}

}  // namespace dampline::journal
