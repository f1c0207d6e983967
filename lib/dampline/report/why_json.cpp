#include <dampline/report/json.hpp>
#include <dampline/report/why_words.hpp>

namespace dampline::report {

namespace {

using planner::HalfMinutes;
using planner::Plan;
using planner::Why;
using planner::WhyLink;

double minutes(HalfMinutes t) { return t.count() / 2.0; }

class Document {
 public:
  Document(const Plan& plan, const Clock& clock) : plan_(plan), clock_(clock) {}

  std::string write(const Why& why) {
    json_.begin_object();
    json_.member("format", "dampline-why").member("version", 1);
    json_.member("step", why.step).member("what", why.name);
    json_.member("start", time(why.start)).member("end", time(why.end));
    json_.member("answer", answer(why, plan_, clock_));
    json_.member("directly_after", why.after).member("work_begins", time(why.begins));
    links("needed_for", why.needed_for, true);
    links("waits_for", why.waits_for, false);
    json_.member("earlier_minutes", minutes(why.earlier));
    json_.member("later_minutes", minutes(why.later));
    json_.member("later_nearer_to_windows_minutes", minutes(why.later_nearer));
    json_.member("later_if_the_finish_moves_minutes", minutes(why.later_at_all));
    json_.key("windows").begin_array();
    for (const auto& w : why.windows) {
      json_.begin_object(Layout::row);
      json_.member("print", w.print).key("pulled").begin_array(Layout::row);
      for (const auto at : w.pulled) json_.value(time(at));
      json_.end_array();
      json_.member("ready_from", time(w.from)).member("ready_until", time(w.until));
      json_.member("ready_after_minutes", minutes(w.opens)).end_object();
    }
    json_.end_array();
    json_.key("remarks").begin_array();
    for (const auto& remark : remarks(why, plan_, clock_)) json_.value(remark);
    json_.end_array();
    json_.end_object();
    return json_.take();
  }

 private:
  [[nodiscard]] std::string time(HalfMinutes at) const {
    return rfc3339(clock_, instant(plan_, at));
  }

  void links(std::string_view key, const std::vector<WhyLink>& all, bool up) {
    json_.key(key).begin_array();
    for (const auto& link : all) {
      json_.begin_object();
      json_.member("ground", ground_name(link.ground));
      json_.member("step", link.step).member("what", link.name);
      json_.member("start", time(link.start)).member("end", time(link.end));
      json_.member("resource", link.resource).member("wait_minutes", minutes(link.wait));
      json_.member("text",
                   up ? up_sentence(link, plan_, clock_) : down_sentence(link, plan_, clock_));
      json_.end_object();
    }
    json_.end_array();
  }

  const Plan& plan_;
  const Clock& clock_;
  JsonWriter json_;
};

}  // namespace

std::string why_json(const Why& why, const Plan& plan, const Clock& clock) {
  return Document(plan, clock).write(why);
}

}  // namespace dampline::report
