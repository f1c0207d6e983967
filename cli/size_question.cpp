#include "size_question.hpp"

#include <algorithm>

#include <dampline/planner/paper_case.hpp>
#include <dampline/planner/registering.hpp>

#include "stocks_file.hpp"

namespace dampline::cli {
namespace {

size::Way way_of(session::Between b) {
  switch (b) {
    case session::Between::held:
      return size::Way::held;
    case session::Between::released:
      return size::Way::released;
    case session::Between::dried:
      break;
  }
  return size::Way::dried;
}

size::Printing printing_of(const session::Session& s, const planner::Knowledge& k,
                           const planner::PaperCase& paper, const planner::Damping& damping,
                           const SizeWords& w) {
  auto p = planner::printing_of(s, k.craft, paper, damping);
  p.laid = w.lay == "plate" ? size::Laid::plate : size::Laid::sheet;
  for (auto& plate : p.plates) plate.between = w.between.value_or(plate.between);
  p.travel = w.travel == "short" ? size::Travel::along_short_side : size::Travel::along_long_side;
  p.nip = w.nip.value_or(size::usual_nip);
  p.blank_pass = w.blank_pass;
  p.samples = w.samples;
  p.seed = static_cast<unsigned>(w.seed);
  return p;
}

// The moistures of the marks' readings are those of the expected sheet.
void believe(const SizeWords& w, size::Printing& p) {
  if (!w.along && !w.across) return;
  const auto sheet = size::expected(p);
  const auto first = size::at_first_pull(p, sheet);
  const auto mean = [](const method::State& state) {
    return method::sample_of(state).mean.parts_of_one();
  };
  const auto dry = method::conditioned(sheet.sheet, p.room);
  const std::vector nip{method::nip_pass()};
  const auto pulled = size::after(first, nip);
  const auto put = [&](const std::optional<size::Marks>& marks, const material::Growth& of_class,
                       const size::Direction& direction, std::optional<size::Belief>& to) {
    if (!marks) return;
    size::MarkMoistures at;
    at.dry = at.dried = mean(dry);
    at.damp = mean(first.state);
    at.pulled = mean(pulled.state);
    at.wettest = first.state.wetted_through;
    if (marks->waited) {
      const std::vector open{method::left(method::Arrangement::bench, marks->wait)};
      at.waited = mean(size::after(pulled, open).state);
    }
    to = size::believed(of_class, direction, *marks, at);
  };
  put(w.along, p.stock.along, sheet.size.along, p.beliefs.along);
  put(w.across, p.stock.across, sheet.size.across, p.beliefs.across);
}

void add_tissues(const SizeWords& w, const session::Session& s, const planner::Knowledge& k,
                 SizeAnswer& a) {
  const auto sheet = size::expected(a.printing);
  const auto passage =
      size::follow(a.printing, sheet, size::at_first_pull(a.printing, sheet), size::Way::released);
  const auto name = w.tissue.value_or("gampi, 20 g/m2");
  for (std::size_t i = 0; i < a.printing.plates.size(); ++i) {
    const auto& plate = planner::plate_named(s, a.printing.plates[i].name);
    const bool asked =
        plate.process.find("chine") != std::string::npos ||
        std::find(plate.extras.begin(), plate.extras.end(), "chine colle") != plate.extras.end();
    if (!asked && !w.tissue) continue;
    if (!w.tissue) a.defaults_used.push_back("tissue = " + name);
    const auto& stock = stock_named(k.catalogue, name);
    a.tissues.push_back(
        {stock.name, plate.name,
         size::tissue_for(stock, a.printing.plates[i], passage.pulls[i], a.answer.shown.grain)});
    if (!asked) break;
  }
}

}  // namespace

SizeAnswer answered(const SizeWords& w, const session::Session& s, const planner::Knowledge& k,
                    const planner::Subject& subject, const planner::StudioAir& studio) {
  SizeAnswer a;
  a.title = s.title;
  a.defaults_used = s.defaults_used;
  a.defaults_used.insert(a.defaults_used.end(), subject.defaults_used.begin(),
                         subject.defaults_used.end());
  // As a plan finds it, so that both speak of the same sheet.
  planner::PlanOptions options;
  options.samples = w.samples;
  options.seed = static_cast<unsigned>(w.seed);
  const auto paper = planner::paper_case(s, k, subject, studio, options);
  const auto damping = planner::choose_damping(s, paper);
  a.treatment = damping.summary;
  for (const auto& doubt : studio.doubts) a.warnings.push_back(doubt.text + ": " + doubt.help);
  for (const auto& warning : damping.warnings) {
    a.warnings.push_back(warning.text + ": " + warning.help);
  }
  if (s.edition.sheet_each) {
    a.warnings.push_back(
        "every plate is printed on sheets of its own: there is nothing to meet, "
        "and the first plate is shown alone");
  }
  a.printing = printing_of(s, k, paper, damping, w);
  a.along = w.along;
  a.across = w.across;
  believe(w, a.printing);
  a.asked = way_of(s.edition.between);
  a.answer = size::compare(a.printing, a.asked);
  a.order = planner::order_of(s);
  add_tissues(w, s, k, a);
  return a;
}

}  // namespace dampline::cli
