#include <algorithm>
#include <cctype>

#include <dampline/report/characters.hpp>
#include <dampline/report/why_words.hpp>
#include <dampline/units/suggest.hpp>

namespace dampline::report {

namespace {

using planner::Ground;
using planner::HalfMinutes;
using planner::Plan;
using planner::ResourceKind;
using planner::Why;
using planner::WhyLink;

// A print by its number, other work by the words of its step.
std::string named(const std::string& name) {
  return name.starts_with("print ") ? clean(name) : "\"" + clean(name) + "\"";
}

class Words {
 public:
  Words(const WhyLink& link, const Plan& plan, const Clock& clock)
      : link_(link), plan_(plan), clock_(clock) {}

  [[nodiscard]] std::string down() const {
    const auto named = ": " + name();
    switch (link_.ground) {
      case Ground::opening:
        return "the studio opens";
      case Ground::set_time:
        return "the session sets its time";
      case Ground::order:
        return quoted() + " comes first, done " + end() + taken();
      case Ground::soak:
        return "the sheets are under water for " + wait() + ", all in by " + end() + named;
      case Ground::tub_limit:
        return "they may stay under water for " + wait() + ", and are lifted " + start() + named;
      case Ground::rest:
        if (link_.step.empty()) return "the sheets damped before the day are not printable sooner";
        return "its sheet is printable " + length_text(link_.wait - link_.clear) +
               " after it is covered" + kept_clear() + named;
      case Ground::keeps:
        return "the sheet stays printable for " + length_text(link_.wait + link_.clear) +
               kept_clear() + ", and is pulled " + time(link_.pulled) + named;
      case Ground::ink_waits:
        return "an inked plate waits " + wait() + " at most, and goes to the press " + start() +
               named;
      case Ground::between:
        return "the sheet may wait so long between its plates, and is pulled again " + start() +
               named;
      case Ground::plate:
        return "the plate is at the press until " + end() + named;
      case Ground::tub:
        return "the tub is full until " + end() + named;
      case Ground::hands:
        return busy() + " until " + end() + named;
      case Ground::changing:
        return clean(link_.resource) + " takes " + wait() + " to change over" + named;
      case Ground::away:
        return clean(link_.resource) + " can be had from " + start() + " on";
      case Ground::finish:
        return quoted() + " is the last to be done, at " + end();
    }
    return {};
  }

  [[nodiscard]] std::string up() const {
    switch (link_.ground) {
      case Ground::set_time:
      case Ground::opening:
      case Ground::order:
        return quoted() + " follows " + start() + taken();
      case Ground::soak:
        return quoted() + " follows " + wait() + " under water";
      case Ground::tub_limit:
        return "the sheets went in " + start() + " and may stay under water for " + wait();
      case Ground::rest:
        return "print " + std::to_string(link_.print) + " is pulled " + time(link_.pulled) + ", " +
               wait() + " after its sheet is covered";
      case Ground::keeps:
        return "its sheet, covered by " + end() + ", stays printable for " +
               length_text(link_.wait + link_.clear) + kept_clear();
      case Ground::ink_waits:
        return "its plate, inked and wiped by " + end() + ", waits " + wait() + " at most";
      case Ground::between:
        return "its sheet was on the press " + start() +
               " and may wait no longer between its plates";
      case Ground::plate:
        return "the plate is wanted " + start() + ": " + name();
      case Ground::tub:
        return "the tub is wanted " + start() + ": " + name();
      case Ground::hands:
        return hands() + " needed " + start() + ": " + name();
      case Ground::changing:
        return clean(link_.resource) + " takes " + wait() + " to change over to " + quoted();
      case Ground::away:
        return clean(link_.resource) + " can be had until " + start();
      case Ground::finish:
        return "the day is finished " + start();
    }
    return {};
  }

 private:
  [[nodiscard]] std::string time(HalfMinutes at) const {
    return clock_text(clock_, instant(plan_, at));
  }
  [[nodiscard]] std::string start() const { return time(link_.start); }
  [[nodiscard]] std::string end() const { return time(link_.end); }
  [[nodiscard]] std::string wait() const { return length_text(link_.wait); }
  [[nodiscard]] std::string kept_clear() const {
    if (link_.clear == HalfMinutes(0)) return {};
    return " (the plan keeps " + length_text(link_.clear) + " clear of that)";
  }
  [[nodiscard]] std::string name() const { return clean(link_.name); }
  [[nodiscard]] std::string quoted() const { return named(link_.name); }
  [[nodiscard]] bool by_hand() const { return link_.kind == ResourceKind::person; }

  [[nodiscard]] std::string hands() const {
    return by_hand() ? clean(link_.resource) + "'s hands are" : "the " + resource() + " is";
  }
  [[nodiscard]] std::string busy() const { return hands() + (by_hand() ? " busy" : " taken"); }
  // A press may be called "the old one".
  [[nodiscard]] std::string resource() const {
    const auto own = clean(link_.resource);
    return own.starts_with("the ") ? own.substr(4) : own;
  }
  [[nodiscard]] std::string taken() const {
    if (link_.resource.empty()) return {};
    return by_hand() ? ", in " + clean(link_.resource) + "'s hands" : ", at the " + resource();
  }

  const WhyLink& link_;
  const Plan& plan_;
  const Clock& clock_;
};

std::string capital(std::string text) {
  if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  return text;
}

constexpr std::size_t most_named = 4;

// What the way up to a step asks for, in order: "15 min under water", "lift, drain and blot" ...
std::vector<std::string> needed(const std::vector<WhyLink>& up) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < up.size(); ++i) {
    if (up[i].ground == Ground::soak) out.push_back(length_text(up[i].wait) + " under water");
    if (up[i].ground == Ground::rest) out.push_back(length_text(up[i].wait) + " of rest");
    if (i + 1 < up.size() && !up[i].name.empty()) out.push_back(named(up[i].name));
  }
  if (out.size() > most_named) {
    const auto more = out.size() - (most_named - 1);
    out.resize(most_named - 1);
    out.push_back(std::to_string(more) + " more things");
  }
  return out;
}

}  // namespace

std::string_view ground_name(Ground ground) {
  switch (ground) {
    case Ground::opening:
      return "opening";
    case Ground::set_time:
      return "set_time";
    case Ground::order:
      return "order";
    case Ground::soak:
      return "soak";
    case Ground::tub_limit:
      return "tub_limit";
    case Ground::rest:
      return "rest";
    case Ground::keeps:
      return "keeps";
    case Ground::ink_waits:
      return "ink_waits";
    case Ground::between:
      return "between";
    case Ground::plate:
      return "plate";
    case Ground::tub:
      return "tub";
    case Ground::hands:
      return "hands";
    case Ground::changing:
      return "changing";
    case Ground::away:
      return "away";
    case Ground::finish:
      return "finish";
  }
  return "other";
}

std::string down_sentence(const WhyLink& link, const Plan& plan, const Clock& clock) {
  return Words(link, plan, clock).down();
}

std::string up_sentence(const WhyLink& link, const Plan& plan, const Clock& clock) {
  return Words(link, plan, clock).up();
}

std::string answer(const Why& why, const Plan& plan, const Clock& clock) {
  const auto time = [&](HalfMinutes at) { return clock_text(clock, instant(plan, at)); };
  std::string out = why.step == "finish" ? "The day is finished " + time(why.start)
                                         : capital(clean(why.name)) + " starts " + time(why.start);
  if (why.step.empty()) return out;
  if (!why.after.empty()) {
    out += ", directly after " + clean(why.after) + "; that work begins " + time(why.begins);
  }
  if (why.needed_for.empty()) {
    if (why.waits_for.empty()) return out + "; nothing holds it there.";
    out += " because " + down_sentence(why.waits_for.front(), plan, clock);
    if (why.waits_for.size() > 1) {
      out += "; that one, because " + down_sentence(why.waits_for[1], plan, clock);
    }
    return out + ".";
  }
  const auto& last = why.needed_for.back();
  const auto target = last.ground == Ground::finish
                          ? "the finish at " + time(last.start)
                          : named(last.name) + ", " +
                                (last.print > 0 ? "pulled " + time(last.pulled) : time(last.start));
  const auto list = needed(why.needed_for);
  if (list.empty()) {
    out += " because " + up_sentence(last, plan, clock);
  } else {
    out += " because " + target + ", needs " + units::listed(list, "", "and");
  }
  if (!why.waits_for.empty()) {
    out += "; there, " + down_sentence(why.waits_for.front(), plan, clock);
  }
  return out + ".";
}

}  // namespace dampline::report
