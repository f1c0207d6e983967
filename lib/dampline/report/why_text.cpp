#include <dampline/report/characters.hpp>
#include <dampline/report/text_page.hpp>
#include <dampline/report/why_words.hpp>
#include <dampline/units/suggest.hpp>

namespace dampline::report {

namespace {

using planner::HalfMinutes;
using planner::Plan;
using planner::Why;
using planner::WhyLink;

constexpr int indent = 9;          // "  10:39  "
constexpr std::size_t shown = 12;  // of a chain, before its middle is left out
constexpr std::size_t at_the_ends = 5;

std::string id_note(const std::string& id) { return id.empty() ? "" : " [" + clean(id) + "]"; }

class Sheet {
 public:
  Sheet(const Plan& plan, const Clock& clock, const TextOptions& options)
      : plan_(plan), clock_(clock), page_(options) {}

  std::string write(const Why& why) {
    page_.paragraph(answer(why, plan_, clock_), 0, "", Ink::strong);
    chain("What it is needed for", why.needed_for, true);
    chain(why.needed_for.empty() ? "What it waits for" : "What that waits for", why.waits_for,
          false);
    const auto all = remarks(why, plan_, clock_);
    if (!all.empty()) page_.blank();
    for (const auto& remark : all) page_.paragraph(remark, 0);
    return page_.take();
  }

 private:
  void chain(std::string_view heading, const std::vector<WhyLink>& links, bool up) {
    if (links.empty()) return;
    page_.heading(heading);
    const bool whole = links.size() <= shown;
    for (std::size_t i = 0; i < links.size(); ++i) {
      if (!whole && i == at_the_ends) {
        const auto left = links.size() - 2 * at_the_ends;
        page_.paragraph("... " + std::to_string(left) +
                            " more, each held by the next; --json has "
                            "them all",
                        indent);
        i += left;
      }
      const auto& link = links[i];
      const auto text = up ? up_sentence(link, plan_, clock_) : down_sentence(link, plan_, clock_);
      page_.paragraph(text + id_note(link.step), indent,
                      "  " + clock_text(clock_, instant(plan_, link.start)));
    }
  }

  const Plan& plan_;
  const Clock& clock_;
  TextPage page_;
};

}  // namespace

std::vector<std::string> remarks(const Why& why, const Plan& plan, const Clock& clock) {
  const HalfMinutes none{};
  std::vector<std::string> out;
  const auto time = [&](HalfMinutes at) { return clock_text(clock, instant(plan, at)); };
  for (const auto& window : why.windows) {
    std::vector<std::string> pulled;
    for (const auto at : window.pulled) pulled.push_back(time(at));
    out.push_back("The sheet of print " + std::to_string(window.print) + " is ready " +
                  length_text(window.opens) + " after it is covered, " + time(window.from) +
                  ", and stays so until " + short_date_text(clock, instant(plan, window.until)) +
                  " " + time(window.until) + "; it is pulled " + units::listed(pulled, "", "and") +
                  ".");
  }
  if (why.step == "finish") {
    out.push_back(plan.proved
                      ? "It is proved that no plan of as many prints ends earlier."
                      : "No plan of as many prints can end before " + time(plan.bound_finish) +
                            "; whether one ends before " + time(why.start) + " is not known.");
    return out;
  }
  const std::string order = ", the order of the work kept";
  if (why.earlier > none) {
    out.push_back("It could start up to " + length_text(why.earlier) + " earlier" + order + ".");
  }
  if (why.later > none) {
    out.push_back("It could start up to " + length_text(why.later) +
                  " later without moving the finish" + order + ".");
  }
  if (why.later_nearer > why.later) {
    out.push_back("Up to " + length_text(why.later_nearer) +
                  " later would leave the finish, but not the " + length_text(plan.margin) +
                  " that every pull keeps from the ends of its window.");
  } else if (why.later == none && why.later_at_all > none) {
    out.push_back("Every minute later moves the finish; the day has room for " +
                  length_text(why.later_at_all) + " of that" + order + ".");
  } else if (why.later == none) {
    out.push_back("It cannot start later" + order + ".");
  }
  return out;
}

std::string why_text(const Why& why, const Plan& plan, const Clock& clock,
                     const TextOptions& options) {
  return Sheet(plan, clock, options).write(why);
}

}  // namespace dampline::report
