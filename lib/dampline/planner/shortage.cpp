#include <algorithm>

#include <dampline/planner/shortage.hpp>
#include <dampline/units/text.hpp>

namespace dampline::planner {
namespace {

struct Load {
  int resource = 0;
  double needed = 0;     // half minutes
  double available = 0;  // half minutes
  [[nodiscard]] double share() const { return available > 0 ? needed / available : 1e9; }
};

std::string time(double half_minutes) {
  return units::text(units::minutes(std::round(half_minutes / 2)));
}

std::vector<Load> loads(const Draft& d, HalfMinutes day) {
  std::vector<Load> out;
  for (std::size_t r = 0; r < d.resources.size(); ++r) {
    const auto kind = d.resources[r].kind;
    if (kind != ResourceKind::person && kind != ResourceKind::press) continue;
    Load load;
    load.resource = static_cast<int>(r);
    load.available = day.count();
    for (std::size_t a = 0; a < d.blocks.size(); ++a) {
      const auto& activity = d.problem.activities[a];
      const bool uses = std::any_of(activity.uses.begin(), activity.uses.end(), [&](const auto& u) {
        return u.resource == static_cast<int>(r);
      });
      if (!uses) continue;
      const bool is_break = !d.blocks[a].parts.empty() && d.blocks[a].parts[0].kind == "break";
      (is_break ? load.available : load.needed) +=
          is_break ? -activity.duration : activity.duration;
    }
    out.push_back(load);
  }
  std::sort(out.begin(), out.end(),
            [](const Load& a, const Load& b) { return a.share() > b.share(); });
  return out;
}

Shortage hands(const Draft& d, const Load& load, int prints) {
  const auto& resource = d.resources[static_cast<std::size_t>(load.resource)];
  const bool person = resource.kind == ResourceKind::person;
  const std::string name = person ? "hands of " + resource.name : resource.name;
  return {name, std::to_string(prints) + " prints and the proofs need " + time(load.needed) +
                    (person ? " of the hands of " : " on the press ") + resource.name +
                    "; the day has " + time(load.available)};
}

void count_sheets(const session::Session& s, int sheets, std::vector<Shortage>& out) {
  if (s.paper.sheets > 0 && sheets > s.paper.sheets) {
    out.push_back({"sheets", "the edition takes " + std::to_string(sheets) + " sheets; there are " +
                                 std::to_string(s.paper.sheets)});
  }
  if (s.equipment.drying_places && sheets > *s.equipment.drying_places) {
    out.push_back({"drying places", std::to_string(sheets) +
                                        " wet prints need a flat place each; " + "there are " +
                                        std::to_string(*s.equipment.drying_places)});
  }
}

}  // namespace

std::vector<Shortage> short_of(const session::Session& s, const Craft& craft,
                               const Treatment& treatment) {
  Extent whole;
  whole.proofs = s.edition.proofs;
  whole.prints = s.edition.prints;
  const auto d = draft(s, craft, treatment, whole);
  const int prints =
      s.edition.prints * (s.edition.sheet_each ? static_cast<int>(s.plates.size()) : 1);
  std::vector<Shortage> out;
  count_sheets(s, static_cast<int>(d.sheets.size()), out);
  const auto by_load = loads(d, day_length(s));
  for (const auto& load : by_load) {
    if (load.share() > 1) out.push_back(hands(d, load, prints));
  }
  if (out.empty() && !by_load.empty()) {
    auto busiest = hands(d, by_load.front(), prints);
    busiest.text += ", but not in an order that keeps every wait: this is the busiest";
    out.push_back(std::move(busiest));
  }
  return out;
}

}  // namespace dampline::planner
