#include <dampline/report/json.hpp>
#include <dampline/report/plan_json.hpp>

namespace dampline::report {

namespace {

using planner::HalfMinutes;
using planner::Plan;
using planner::ResourceKind;

class Document {
 public:
  Document(const Plan& plan, const Clock& clock) : plan_(plan), clock_(clock) {}

  std::string write() {
    json_.begin_object();
    head();
    resources();
    steps();
    if (plan_.late) late(*plan_.late);
    if (plan_.resume) resume(*plan_.resume);
    pulls();
    batches();
    after();
    remarks();
    json_.end_object();
    return json_.take();
  }

 private:
  std::string time(HalfMinutes at) const { return rfc3339(clock_, instant(plan_, at)); }

  static std::string_view kind(ResourceKind kind) {
    switch (kind) {
      case ResourceKind::person:
        return "person";
      case ResourceKind::press:
        return "press";
      case ResourceKind::tub:
        return "tub";
      case ResourceKind::blotting_place:
        return "bench";
      case ResourceKind::plate:
        return "plate";
      case ResourceKind::hot_plate:
        return "hot_plate";
      case ResourceKind::drying:
        return "drying";
    }
    return "other";
  }

  void head() {
    json_.member("format", "dampline-plan").member("version", 1);
    json_.member("title", plan_.title).member("zone", plan_.zone);
    json_.member("opens", time({})).member("until", time(plan_.until));
    json_.member("finish", time(plan_.finish)).member("bound_finish", time(plan_.bound_finish));
    json_.member("gap_percent", planner::gap_percent(plan_)).member("proved", plan_.proved);
    json_.member("margin_minutes", plan_.margin.count() / 2.0);
    json_.member("margin_proved", plan_.margin_proved);
    json_.member("idle_wet_minutes", plan_.idle_wet.count() / 2.0);
    json_.member("prints_planned", plan_.prints_planned);
    json_.member("prints_asked", plan_.prints_asked);
    json_.member("proofs_planned", plan_.proofs_planned);
    json_.member("proofs_asked", plan_.proofs_asked);
    // How long a ready sheet stays so in the open; null when it does not leave the band.
    json_.key("open_minutes");
    if (plan_.open_life) {
      json_.value(units::in_minutes(*plan_.open_life));
    } else {
      json_.null();
    }
    lines("summary", plan_.summary);
    lines("defaults_used", plan_.defaults_used);
    if (plan_.climate) climate(*plan_.climate);
  }

  // Only of a day that goes by a log.
  void climate(const planner::LoggedClimate& c) {
    json_.key("climate").begin_object();
    json_.member("file", c.file).member("readings", c.readings);
    json_.member("readings_in_the_hours", c.in_the_hours);
    rows("hours", c.hours, [this](const planner::LoggedClimate::Hours& h) {
      json_.member("from", time(h.from)).member("until", time(h.until)).member("basis", h.basis);
    });
    rows("bridged", c.bridged, [this](const planner::LoggedClimate::Gap& g) {
      json_.member("from", time(g.from)).member("until", time(g.until));
      json_.member("line_before", g.line_before).member("line_after", g.line_after);
    });
    rows("left_out", c.left_out, [this](const planner::LoggedClimate::LeftOut& l) {
      json_.member("why", l.why).member("rows", l.count).member("first_lines", l.lines);
    });
    json_.key("temperature_c").begin_object(Layout::row);
    json_.member("mean", units::in_celsius(c.mean_temperature));
    json_.member("low", units::in_celsius(c.coldest));
    json_.member("high", units::in_celsius(c.warmest)).end_object();
    json_.key("humidity_percent").begin_object(Layout::row);
    json_.member("mean", c.mean_humidity.percent()).member("low", c.driest.percent());
    json_.member("high", c.dampest.percent()).end_object();
    json_.member("humidity_scatter_points", c.scatter.percent());
    lines("notes", c.notes);
    json_.end_object();
  }

  void resources() {
    rows("resources", plan_.resources, [this](const planner::Resource& r) {
      json_.member("name", r.name).member("kind", kind(r.kind));
      json_.member("capacity", r.kind == ResourceKind::person ? 1 : r.capacity);
    });
  }

  void steps() {
    rows("steps", plan_.steps, [this](const planner::Step& s) {
      json_.member("id", s.id).member("kind", s.kind).member("what", s.what);
      json_.member("sheets", s.sheets).member("plate", s.plate).member("print", s.print);
      json_.key("uses").begin_array(Layout::row);
      for (const auto& use : s.uses) {
        json_.begin_object(Layout::row);
        json_.member("resource", plan_.resources.at(static_cast<std::size_t>(use.resource)).name);
        json_.member("amount", use.amount).end_object();
      }
      json_.end_array();
      json_.member("start", time(s.start)).member("end", time(s.end));
      json_.member("cue", s.cue).member("because", s.because);
      if (plan_.late) json_.member("state", state(s.state));
    });
  }

  static std::string_view state(planner::StepState state) {
    switch (state) {
      case planner::StepState::done:
        return "done";
      case planner::StepState::running:
        return "running";
      case planner::StepState::planned:
        break;
    }
    return "planned";
  }

  // Only of a day after which the edition goes on.
  void resume(const planner::Resume& r) {
    json_.key("resume").begin_object();
    json_.member("printed", r.printed);
    json_.key("first_pull_percent").begin_object(Layout::row);
    json_.member("along", r.along.percent()).member("across", r.across.percent()).end_object();
    json_.member("prints", r.prints).member("proofs", r.proofs).member("lines", r.lines);
    json_.end_object();
  }

  // Only of a day planned again while it ran.
  void late(const planner::LateDay& l) {
    json_.key("late").begin_object();
    json_.member("at", time(l.at)).member("finish_before", time(l.finish_before));
    json_.member("prints_before", l.prints_before).member("proofs_before", l.proofs_before);
    json_.member("steps_done", l.done).member("steps_running", l.running);
    json_.member("lost_prints", l.lost);
    rows("rescues", l.rescues, [this](const planner::Rescue& r) {
      json_.member("kind", r.kind).member("sheets", r.sheets).member("text", r.text);
      json_.key("step");
      if (r.step.empty()) {
        json_.null();
      } else {
        json_.value(r.step);
      }
      if (r.water) json_.member("water_g", units::in_grams(*r.water));
      if (r.rest) json_.member("rest_minutes", units::in_minutes(*r.rest));
      if (r.before) json_.member("moisture_now", r.before->parts_of_one());
      if (r.after) json_.member("moisture_rested", r.after->parts_of_one());
    });
    lines("notes", l.notes);
    json_.end_object();
  }

  void pulls() {
    rows("pulls", plan_.pulls, [this](const planner::Pull& p) {
      json_.member("print", p.print).member("proof", p.proof).member("plate", p.plate);
      json_.member("printer", p.printer).member("sheet", p.sheet).member("at", time(p.at));
      json_.member("ready_from", time(p.ready_from)).member("ready_until", time(p.ready_until));
      json_.key("moisture").begin_object(Layout::row);
      json_.member("mean", p.moisture.mean.parts_of_one());
      json_.member("surface", p.moisture.surface.parts_of_one());
      json_.member("driest", p.moisture.driest.parts_of_one());
      json_.member("low", p.moisture.low.parts_of_one());
      json_.member("high", p.moisture.high.parts_of_one()).end_object();
      json_.member("chance_ready", p.ready.parts_of_one());
      json_.key("growth_percent").begin_object(Layout::row);
      json_.member("along", p.along.percent()).member("across", p.across.percent()).end_object();
      json_.key("misfit_mm");
      if (p.misfit) {
        json_.begin_object(Layout::row);
        json_.member("along", units::in_millimetres(p.misfit->along));
        json_.member("across", units::in_millimetres(p.misfit->across));
        json_.member("worst", units::in_millimetres(p.misfit->worst));
        json_.member("chance_within", p.misfit->within.parts_of_one()).end_object();
      } else {
        json_.null();
      }
    });
  }

  void batches() {
    rows("batches", plan_.batches, [this](const planner::Batch& b) {
      json_.member("what", b.what).member("sheets", b.sheets);
      json_.member("wet_from", time(b.wet_from)).member("covered_from", time(b.covered_from));
      json_.member("ready_from", time(b.ready_from)).member("ready_until", time(b.ready_until));
      json_.member("band_low", b.band_low.parts_of_one());
      json_.member("band_high", b.band_high.parts_of_one());
      json_.key("curve").begin_array();
      for (const auto& point : b.curve) {
        json_.begin_object(Layout::row).member("at", time(point.at));
        json_.member("mean", point.mean.parts_of_one());
        json_.member("surface", point.surface.parts_of_one());
        json_.member("low", point.low.parts_of_one());
        json_.member("high", point.high.parts_of_one()).end_object();
      }
      json_.end_array();
    });
  }

  void after() {
    rows("after", plan_.after, [this](const planner::AfterStep& a) {
      const Instant at = instant(plan_, plan_.finish) + a.since_finish;
      json_.member("at", rfc3339(clock_, at));
      json_.member("minutes_after_finish", a.since_finish.count()).member("kind", a.kind);
      json_.member("what", a.what).member("basis", a.basis);
    });
  }

  void remarks() {
    rows("short_of", plan_.short_of, [this](const planner::Shortage& s) {
      json_.member("resource", s.resource).member("text", s.text);
    });
    ways();
    rows("warnings", plan_.warnings, [this](const planner::Warning& w) {
      json_.member("code", w.code).member("text", w.text).member("help", w.help);
    });
    rows("cautions", plan_.cautions, [this](const planner::Caution& c) {
      json_.member("code", c.code).member("text", c.text);
    });
    lines("assumptions", plan_.assumptions);
  }

  void ways() {
    json_.member("bottleneck", plan_.bottleneck);
    rows("utilisation", plan_.utilisation, [this](const planner::Utilisation& u) {
      json_.member("resource", plan_.resources.at(static_cast<std::size_t>(u.resource)).name);
      json_.member("busy_minutes", u.busy.count() / 2.0);
      json_.member("available_minutes", u.available.count() / 2.0);
    });
    rows("clashes", plan_.clashes, [this](const planner::Clash& c) {
      json_.member("demands", c.demands).member("minimal", c.is_minimal);
    });
    rows("nearest", plan_.nearest, [this](const planner::NearestDay& n) {
      json_.member("change", n.change).member("proved", n.is_proved);
    });
    if (!plan_.advice) return;
    rows("advice", plan_.advice->changes, [this](const planner::AdvisedChange& a) {
      json_.member("change", a.change).member("prints", a.prints).member("proofs", a.proofs);
      json_.member("finish", time(a.finish)).member("gain_prints", a.gain);
      json_.member("gain_minutes", a.gain_time.count() / 2.0).member("proved", a.is_proved);
    });
    lines("no_gain", plan_.advice->idle);
    json_.member("advice_conflicts", plan_.advice->conflicts);
  }

  template <class T, class Member>
  void rows(std::string_view name, const std::vector<T>& all, Member members) {
    json_.key(name).begin_array();
    for (const auto& each : all) {
      json_.begin_object();
      members(each);
      json_.end_object();
    }
    json_.end_array();
  }

  void lines(std::string_view name, const std::vector<std::string>& all) {
    json_.key(name).begin_array();
    for (const auto& line : all) json_.value(line);
    json_.end_array();
  }

  const Plan& plan_;
  const Clock& clock_;
  JsonWriter json_;
};

}  // namespace

std::string plan_json(const Plan& plan, const Clock& clock) {
  return Document(plan, clock).write();
}

}  // namespace dampline::report
