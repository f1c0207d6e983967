#include "size_answer.hpp"

#include <dampline/report/json.hpp>
#include <dampline/units/text.hpp>

namespace dampline::cli {
namespace {

using report::JsonWriter;
using report::Layout;
using units::in_millimetres;

std::optional<double> minutes(const std::optional<units::Duration>& t) {
  return t ? std::optional(units::in_minutes(*t)) : std::nullopt;
}
std::optional<double> in_g_per_g(const std::optional<units::Moisture>& u) {
  return u ? std::optional(u->parts_of_one()) : std::nullopt;
}
std::optional<double> points(const std::optional<units::Moisture>& u) {
  return u ? std::optional(u->percent()) : std::nullopt;
}
std::optional<double> grams(const std::optional<units::Moisture>& u, units::Mass dry) {
  return u ? std::optional(u->parts_of_one() * units::in_grams(dry)) : std::nullopt;
}

void growth(JsonWriter& json, const char* name, units::Strain along, units::Strain across) {
  json.key(name)
      .begin_object(Layout::row)
      .member("along", along.percent())
      .member("across", across.percent())
      .end_object();
}

void rectangle(JsonWriter& json, const char* name, const size::Rectangle& r) {
  json.key(name)
      .begin_object(Layout::row)
      .member("long", in_millimetres(r.long_side))
      .member("short", in_millimetres(r.short_side))
      .end_object();
}

void shifts(JsonWriter& json, const char* name, const std::array<size::Shift, 4>& all) {
  json.key(name).begin_array(Layout::row);
  for (const auto& s : all) {
    json.begin_object(Layout::row)
        .member("long", in_millimetres(s.long_way))
        .member("short", in_millimetres(s.short_way))
        .end_object();
  }
  json.end_array();
}

void wait(JsonWriter& json, const char* name, const size::AllowedWait& w, double followed_hours) {
  json.key(name)
      .begin_object(Layout::row)
      .member("minutes", minutes(w.value))
      .member("low", minutes(w.low))
      .member("high", minutes(w.high))
      .member("followed_minutes", followed_hours * 60)
      .end_object();
}

void misfit(JsonWriter& json, const size::LaterPull& l) {
  json.key("misfit_mm")
      .begin_object()
      .member("along", in_millimetres(l.misfit.along))
      .member("across", in_millimetres(l.misfit.across))
      .member("worst", in_millimetres(l.worst.value))
      .member("worst_low", in_millimetres(l.worst.low))
      .member("worst_high", in_millimetres(l.worst.high))
      .member("by_press", in_millimetres(l.by_press))
      .member("chance_within", l.within.parts_of_one());
  shifts(json, "corners", l.misfit.corner);
  shifts(json, "sides", l.misfit.edge);
  json.end_object();
}

void allowed(JsonWriter& json, const size::LaterPull& l, size::Way way, units::Mass dry) {
  json.key("allowed_wait");
  if (way == size::Way::dry) {
    json.null();
  } else {
    json.begin_object();
    json.member("counted_from", way == size::Way::dried ? "ready for this pull" : "first pull");
    wait(json, "bench", l.bench, size::bench_hours);
    if (way == size::Way::held) {
      json.key("covered").null();
    } else {
      wait(json, "covered", l.covered, size::covered_hours);
    }
    json.end_object();
  }
  json.key("allowed_moisture");
  if (!l.moisture) {
    json.null();
    return;
  }
  json.begin_object()
      .member("driest", in_g_per_g(l.moisture->driest))
      .member("wettest", in_g_per_g(l.moisture->wettest))
      .member("drier_points", points(l.drier))
      .member("wetter_points", points(l.wetter))
      .member("lighter_g", grams(l.drier, dry))
      .member("heavier_g", grams(l.wetter, dry))
      .end_object();
}

void pull(JsonWriter& json, const size::PullAnswer& p, size::Way way, units::Mass dry) {
  json.begin_object().member("plate", p.plate);
  json.key("moisture")
      .begin_object(Layout::row)
      .member("mean", p.moisture.value.parts_of_one())
      .member("low", p.moisture.low.parts_of_one())
      .member("high", p.moisture.high.parts_of_one())
      .end_object();
  growth(json, "growth_percent", p.along.value, p.across.value);
  growth(json, "growth_low_percent", p.along.low, p.across.low);
  growth(json, "growth_high_percent", p.along.high, p.across.high);
  if (!p.later) {
    json.key("misfit_mm").null().key("allowed_wait").null().key("allowed_moisture").null();
    json.end_object();
    return;
  }
  misfit(json, *p.later);
  allowed(json, *p.later, way, dry);
  json.key("scale_percent")
      .begin_object(Layout::row)
      .member("long", 100 + p.later->scale.long_way.percent())
      .member("short", 100 + p.later->scale.short_way.percent())
      .end_object();
  json.member("chance_when_scaled", p.later->within_scaled.parts_of_one()).end_object();
}

void finished(JsonWriter& json, const size::Finished& f) {
  json.key("finished").begin_object();
  growth(json, "growth_percent", f.growth.along, f.growth.across);
  rectangle(json, "sheet_mm", f.sheet);
  rectangle(json, "tear_mm", f.tear);
  json.key("images").begin_array();
  for (const auto& image : f.images) {
    json.begin_object().member("plate", image.plate);
    rectangle(json, "plate_mm", image.plate_size);
    rectangle(json, "dried_mm", image.dried);
    json.end_object();
  }
  json.end_array().end_object();
}

std::string_view grain_word(size::Grain grain) {
  switch (grain) {
    case size::Grain::along_long_side:
      return "long";
    case size::Grain::along_short_side:
      return "short";
    case size::Grain::none:
      return "none";
    case size::Grain::unknown:
      break;
  }
  return "unknown";
}

void strategies(JsonWriter& json, const char* name, const size::Comparison& c) {
  json.key(name).begin_array();
  for (const auto& w : c.ways) {
    json.begin_object()
        .member("strategy", size::word(w.way))
        .member("title", size::title(w.way))
        .member("chance_all_within", w.all.parts_of_one())
        .member("share_where_best_moves_less", w.firmer.parts_of_one());
    json.key("pulls").begin_array();
    for (const auto& p : w.pulls) pull(json, p, w.way, c.dry_sheet);
    json.end_array();
    finished(json, w.finished);
    json.end_object();
  }
  json.end_array();
}

void belief(JsonWriter& json, const char* name, const std::optional<size::Belief>& b) {
  json.key(name);
  if (!b) {
    json.null();
    return;
  }
  json.begin_object(Layout::row)
      .member("growth_percent", 100 * b->free)
      .member("growth_sd_percent", 100 * b->free_sd)
      .member("dried_in_percent", 100 * b->dried_in)
      .member("dried_in_sd_percent", 100 * b->dried_in_sd)
      .end_object();
}

void order(JsonWriter& json, const SizeAnswer& a) {
  std::vector<std::string> names;
  for (const auto i : a.order.plates) names.push_back(a.printing.plates[i].name);
  json.key("order")
      .begin_object()
      .member("plates", names)
      .member("reason", a.order.reason)
      .end_object();
}

void tissues(JsonWriter& json, const SizeAnswer& a) {
  json.key("tissues").begin_array();
  for (const auto& t : a.tissues) {
    json.begin_object().member("plate", t.plate).member("stock", t.stock);
    rectangle(json, "cut_mm", t.tissue.cut);
    growth(json, "growth_percent", t.tissue.wet.along, t.tissue.wet.across);
    json.member("shrinks_apart_percent", t.tissue.with.percent())
        .member("shrinks_apart_crossed_percent", t.tissue.crossed.percent())
        .end_object();
  }
  json.end_array();
}

}  // namespace

std::string grain_words(size::Grain grain) {
  switch (grain) {
    case size::Grain::along_long_side:
      return "grain along the long side";
    case size::Grain::along_short_side:
      return "grain along the short side";
    case size::Grain::none:
      return "no grain";
    case size::Grain::unknown:
      break;
  }
  return "grain not known";
}

std::string laying_words(const size::Printing& p) {
  if (p.laid == size::Laid::plate) {
    switch (p.locate) {
      case size::Locate::corner:
        return "plate laid to a corner of the image";
      case size::Locate::centre:
        return "plate floated to the middle of the image";
      default:
        return "plate laid to an edge of the image";
    }
  }
  switch (p.locate) {
    case size::Locate::corner:
      return "a corner of the sheet laid to marks";
    case size::Locate::edge:
      return "a long edge of the sheet laid to marks";
    case size::Locate::pins:
      return "two pins in a long edge of the sheet";
    default:
      return "the sheet laid by its middle";
  }
}

std::string size_json(const SizeAnswer& a) {
  JsonWriter json;
  const auto& p = a.printing;
  json.begin_object()
      .member("format", "dampline-size")
      .member("version", 1)
      .member("title", a.title)
      .member("paper", p.stock.name)
      .member("sheet_dry_g", units::in_grams(a.answer.shown.dry_sheet))
      .member("grain", grain_word(p.grain))
      .member("grain_shown", grain_word(a.answer.shown.grain))
      .member("laying", laying_words(p))
      .member("tolerance_mm", in_millimetres(p.tolerance))
      .member("placing_mm", in_millimetres(p.placing))
      .member("left_for_drift_mm", in_millimetres(size::room_for_drift(p.tolerance, p.placing)))
      .member("temperature_c", units::in_celsius(p.room.temperature))
      .member("humidity_percent", p.room.humidity.percent())
      .member("samples", a.answer.samples)
      .member("asked", size::word(a.asked))
      .member("best", size::word(a.answer.best))
      .member("reasons", size::reasons(p, a.answer));
  strategies(json, "strategies", a.answer.shown);
  if (a.answer.other) {
    json.member("grain_other", grain_word(a.answer.other->grain));
    strategies(json, "strategies_other_grain", *a.answer.other);
  }
  json.key("marks").begin_object();
  belief(json, "along", p.beliefs.along);
  belief(json, "across", p.beliefs.across);
  json.end_object();
  order(json, a);
  tissues(json, a);
  json.member("firm", size::firm(p, a.answer))
      .member("rough", size::rough(p, a.answer))
      .member("treatment", a.treatment)
      .member("assumptions", size::assumptions(p))
      .member("defaults_used", a.defaults_used)
      .member("warnings", a.warnings)
      .end_object();
  return json.take();
}

}  // namespace dampline::cli
