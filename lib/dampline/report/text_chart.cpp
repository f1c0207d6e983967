#include <algorithm>
#include <array>

#include <dampline/report/text_chart.hpp>

namespace dampline::report {

namespace {

using planner::HalfMinutes;

/// Minutes a letter may stand for.
constexpr std::array cells = {2, 3, 5, 6, 10, 15, 20, 30, 60};

HalfMinutes cell_for(const Chart& chart, int room) {
  for (const int minutes : cells) {
    const HalfMinutes cell(2 * minutes);
    if ((chart.to - chart.from) / cell <= room) return cell;
  }
  return HalfMinutes(std::max(120, (chart.to - chart.from).count() / std::max(room, 1) + 1));
}

HalfMinutes shared(const Bar& bar, HalfMinutes from, HalfMinutes to) {
  return std::min(bar.end, to) - std::max(bar.start, from);
}

/// A tub shows how many sheets it holds, everything else what is done.
char letter(const Lane& lane, HalfMinutes from, HalfMinutes to) {
  int amount = 0;
  HalfMinutes most{};
  char out = '.';
  for (const auto& bar : lane.bars) {
    const HalfMinutes common = shared(bar, from, to);
    if (common <= HalfMinutes(0)) continue;
    if (bar.pull) return name_of(bar.family).letter;  // however short, a pull is never hidden
    if (lane.capacity > 1) amount += bar.amount;
    if (common > most) {
      most = common;
      out = name_of(bar.family).letter;
    }
  }
  if (lane.kind == planner::ResourceKind::tub && amount > 0) {
    return amount > 9 ? '+' : static_cast<char>('0' + amount);
  }
  return out;
}

std::string scale(const Chart& chart, HalfMinutes cell, int count) {
  std::string line(static_cast<std::size_t>(count), ' ');
  std::size_t free = 0;
  for (const auto& tick : chart.hours) {
    const auto at = static_cast<std::size_t>((tick.at - chart.from) / cell);
    if (at < free || at + tick.text.size() > line.size()) continue;
    line.replace(at, tick.text.size(), tick.text);
    free = at + tick.text.size() + 1;
  }
  return line;
}

std::string key(const Chart& chart) {
  std::string out;
  bool tub = false;
  for (const auto& lane : chart.lanes) tub = tub || lane.kind == planner::ResourceKind::tub;
  for (const Family family : chart.key) {
    const auto& name = name_of(family);
    out += std::string(1, name.letter) + " " + std::string(name.name) + "; ";
  }
  if (tub) out += "in the tub: number of sheets; ";
  return out;
}

}  // namespace

void text_chart(TextPage& page, const Chart& chart) {
  if (chart.lanes.empty() || chart.to <= chart.from) return;
  int label = 0;
  for (const auto& lane : chart.lanes) {
    label = std::max(label, display_width(page.letters(lane.name)));
  }
  label = std::min(label, std::max(8, page.columns() / 5));
  const int room = page.columns() - 2 - label - 2;
  const HalfMinutes cell = cell_for(chart, room);
  const int count = ((chart.to - chart.from) + cell - HalfMinutes(1)) / cell;
  page.heading("Who does what");
  const std::string space(static_cast<std::size_t>(label + 4), ' ');
  page.line(space + scale(chart, cell, count), Ink::quiet);
  for (const auto& lane : chart.lanes) {
    std::string letters;
    for (int i = 0; i < count; ++i) {
      const char c = letter(lane, chart.from + i * cell, chart.from + (i + 1) * cell);
      letters += c == '.' && page.utf8() ? "\u00b7" : std::string(1, c);
    }
    page.line("  " + padded(shortened(page.letters(lane.name), label), label) + "  " + letters);
  }
  std::string text = key(chart);
  text += (page.utf8() ? "\u00b7" : ".") + std::string(" free. A letter is ") +
          std::to_string(cell.count() / 2) + " min.";
  if (!chart.before.empty()) text += " " + chart.before;
  page.paragraph(text, 2, "", Ink::quiet);
}

}  // namespace dampline::report
