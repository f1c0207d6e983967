#include <algorithm>
#include <charconv>
#include <cmath>
#include <ostream>

#include <dampline/material/isotherm.hpp>
#include <dampline/material/numbers.hpp>
#include <dampline/report/json.hpp>
#include <dampline/units/text.hpp>

#include "command.hpp"
#include "json_option.hpp"
#include "options.hpp"
#include "output_file.hpp"
#include "stocks_file.hpp"

namespace dampline::cli {
namespace {

using material::Ranged;
using material::Stock;

// A number as people and JSON readers see it: in the trade's unit, to 10 digits, so that 0.3 kg/m2
// is 300 and not 300.00000000000006.
struct Shown {
  double value;
  double low;
  double high;
  const char* unit;  // "1" for a pure number
};
double ten_digits(double v) {
  if (v == 0) return 0;
  const double scale = std::pow(10, 9 - std::floor(std::log10(std::abs(v))));
  return std::round(v * scale) / scale;
}
template <class Quantity, class Out>
Shown in_unit(const Ranged<Quantity>& r, Out out, const char* unit) {
  return {ten_digits(out(r.value)), ten_digits(out(r.low)), ten_digits(out(r.high)), unit};
}
Shown shown(const Ranged<units::Grammage>& r) { return in_unit(r, units::in_grams_per_m2, "g/m2"); }
Shown shown(const Ranged<units::Length>& r) { return in_unit(r, units::in_millimetres, "mm"); }
Shown shown(const Ranged<units::Moisture>& r) {
  return in_unit(
      r, [](units::Moisture u) { return u.parts_of_one(); }, "g/g");
}
Shown shown(const Ranged<units::Strain>& r) {
  return in_unit(
      r, [](units::Strain e) { return e.percent(); }, "%");
}
Shown shown(const Ranged<units::Diffusivity>& r) {
  return in_unit(
      r, [](units::Diffusivity d) { return units::in_si(d); }, "m2/s");
}
Shown shown(const Ranged<units::Duration>& r) {
  return in_unit(
      r, [](units::Duration t) { return units::in_si(t); }, "s");
}
Shown shown(const Ranged<double>& r) {
  return in_unit(
      r, [](double v) { return v; }, "1");
}

// What a number is, in words for the page.
const char* label(std::string_view key) {
  if (key == "grammage") return "grammage";
  if (key == "thickness") return "thickness, dry";
  if (key == "cobb60") return "Cobb value, 60 s";
  if (key == "accessible") return "levels off in the tub";
  if (key == "swelling") return "wet thickness over dry";
  if (key == "isotherm_scale") return "moisture from air / rag";
  if (key == "pore_ratio") return "suction / filter paper";
  if (key == "vapour") return "vapour diffusivity";
  if (key == "wetting_delay") return "size holds water off";
  if (key == "fibre_full") return "fibres full";
  if (key == "free_along") return "growth along, free";
  if (key == "dried_in_along") return "  dried in";
  if (key == "free_across") return "growth across, free";
  return "  dried in";
}

bool used(const Stock& s, std::string_view key) {
  return key != "cobb60" || s.sizing != material::Sizing::waterleaf;
}

std::string padded(std::string text, std::size_t width) {
  text.resize(std::max(text.size() + 1, width), ' ');
  return text;
}
std::string right(const std::string& text, std::size_t width) {
  return std::string(width > text.size() ? width - text.size() : 0, ' ') + text;
}

std::string table(const material::Catalogue& catalogue) {
  std::size_t widest = 0;
  for (const auto& s : catalogue.stocks) widest = std::max(widest, s.name.size());
  std::string out = padded("stock", widest + 1) + "    mm  Cobb   growth %, along/across\n";
  for (const auto& s : catalogue.stocks) {
    const auto soaked = [](const material::Growth& g) {
      return units::fixed((g.free.value - g.dried_in.value).percent(), 1);
    };
    out += padded(s.name, widest + 1);
    out += right(units::fixed(units::in_millimetres(s.thickness.value), 2), 6);
    out +=
        right(used(s, "cobb60") ? units::fixed(units::in_grams_per_m2(s.cobb60.value), 0) : "-", 6);
    out += s.kind == material::Kind::paper ? "   " + soaked(s.along) + "/" + soaked(s.across) + '\n'
                                           : "   -\n";
  }
  return out +
         "\ndampline papers NAME shows every number of one, its range and where it is from.\n";
}

struct Point {
  int humidity;
  double adsorption;
  double desorption;
};
std::vector<Point> isotherm(const Stock& s) {
  std::vector<Point> points;
  for (int h = 10; h <= 90; h += 10) {
    const auto at = [&](material::Branch branch) {
      return material::equilibrium_moisture(s, units::RelativeHumidity::from_percent(h),
                                            units::celsius(23), branch)
          .parts_of_one();
    };
    points.push_back({h, at(material::Branch::adsorption), at(material::Branch::desorption)});
  }
  return points;
}

// Where numbers come from, each said once below the table and lettered there.
class Origins {
 public:
  std::string letter(const std::string& basis) {
    auto at = std::find(bases_.begin(), bases_.end(), basis);
    if (at == bases_.end()) at = bases_.insert(bases_.end(), basis);
    return std::string(1, static_cast<char>('a' + (at - bases_.begin())));
  }
  [[nodiscard]] std::string list(std::size_t width) const {
    std::string out;
    for (std::size_t i = 0; i < bases_.size(); ++i) {
      std::string line(1, static_cast<char>('a' + i));
      line += ' ';
      std::size_t at = 0;
      while (at < bases_[i].size()) {
        const auto end = std::min(bases_[i].find(' ', at), bases_[i].size());
        const auto word = bases_[i].substr(at, end - at);
        if (line.size() + 1 + word.size() > width && line.size() > 3) {
          out += line + '\n';
          line = "  ";
        }
        line += ' ' + word;
        at = end + 1;
      }
      out += line + '\n';
    }
    return out;
  }

 private:
  std::vector<std::string> bases_;
};

std::string page(const Stock& s, int columns) {
  std::string out = s.name + '\n';
  if (!s.remark.empty()) out += s.remark + '\n';
  out += std::string(word(s.making)) + "-made " + std::string(word(s.furnish)) + ", " +
         std::string(word(s.sizing)) + (s.sizing == material::Sizing::waterleaf ? "" : " size") +
         '\n';
  Origins origins;
  out += '\n' + padded("", 25) + padded("value", 16) + padded("range", 20) + "from\n";
  material::each_number(s, [&](std::string_view key, const auto& number) {
    if (!used(s, key)) return;
    const auto n = shown(number);
    const std::string unit = std::string_view(n.unit) == "1" ? "" : std::string(" ") + n.unit;
    out += padded(label(key), 25) + padded(units::shortest(n.value) + unit, 16) +
           padded(units::shortest(n.low) + " to " + units::shortest(n.high), 20) +
           origins.letter(number.basis) + '\n';
  });
  out += '\n' + origins.list(static_cast<std::size_t>(std::clamp(columns, 40, 100)));
  out += "\nmoisture at 23 degC, g/g\n";
  out += "humidity %     ";
  std::string up = "taking up      ";
  std::string off = "\ngiving off     ";
  for (const auto& p : isotherm(s)) {
    out += right(std::to_string(p.humidity), 7);
    up += right(units::fixed(p.adsorption, 3), 7);
    off += right(units::fixed(p.desorption, 3), 7);
  }
  return out + '\n' + up + off + '\n';
}

void write_words(report::JsonWriter& json, const Stock& s) {
  json.member("name", s.name)
      .member("remark", s.remark)
      .member("kind", word(s.kind))
      .member("furnish", word(s.furnish))
      .member("making", word(s.making))
      .member("sizing", word(s.sizing));
}

void write_numbers(report::JsonWriter& json, const Stock& s) {
  material::each_number(s, [&](std::string_view key, const auto& number) {
    json.key(key);
    if (!used(s, key)) {
      json.null();
      return;
    }
    const auto n = shown(number);
    json.begin_object(report::Layout::row)
        .member("value", n.value)
        .member("low", n.low)
        .member("high", n.high)
        .member("unit", n.unit)
        .member("basis", number.basis)
        .end_object();
  });
}

std::string stock_json(const Stock& s) {
  report::JsonWriter json;
  json.begin_object().member("format", "dampline-paper").member("version", 1);
  write_words(json, s);
  write_numbers(json, s);
  json.key("isotherm").begin_array();
  for (const auto& p : isotherm(s)) {
    json.begin_object(report::Layout::row)
        .member("humidity_percent", p.humidity)
        .member("adsorption", p.adsorption)
        .member("desorption", p.desorption)
        .end_object();
  }
  json.end_array().end_object();
  return json.take();
}

std::string table_json(const material::Catalogue& catalogue) {
  report::JsonWriter json;
  json.begin_object().member("format", "dampline-papers").member("version", 1);
  json.key("stocks").begin_array();
  for (const auto& s : catalogue.stocks) {
    json.begin_object();
    write_words(json, s);
    write_numbers(json, s);
    json.end_object();
  }
  json.end_array().end_object();
  return json.take();
}

}  // namespace

int run_papers(Arguments args, Streams io) {
  std::vector<std::string> name;
  std::optional<std::string> stocks;
  std::optional<std::string> output;
  bool json = false;
  Options options({.command = "papers",
                   .purpose = "the stocks that are known, and where each of their numbers is from",
                   .usage = "[NAME] [OPTIONS]",
                   .examples = {"dampline papers", "dampline papers \"thin kozo, 25 g/m2\"",
                                "dampline papers \"gampi, 20 g/m2\" --json"}});
  options.operands("NAME", name, "a stock, all its words; none: the table of all")
      .text("stocks", stocks, "FILE", "a stocks file of your own instead of the one installed")
      .flag("json", json, "as JSON")
      .text("output,o", output, "FILE", "write to FILE (default -, standard output)");
  const auto words = with_plain_json(args);
  if (!options.parse(words, io)) return exit_status::done;
  const auto catalogue = load_stocks(stocks, io);
  if (!catalogue) return exit_status::bad_data;
  std::string wanted;
  for (const auto& w : name) wanted += (wanted.empty() ? "" : " ") + w;
  std::vector<std::string> inputs;
  if (stocks) inputs.push_back(*stocks);
  std::string bytes;
  if (wanted.empty()) {
    bytes = json ? table_json(*catalogue) : table(*catalogue);
  } else {
    const auto& stock = stock_named(*catalogue, wanted);
    bytes = json ? stock_json(stock) : page(stock, io.columns);
  }
  write_output(output.value_or("-"), bytes, io, inputs);
  return exit_status::done;
}

}  // namespace dampline::cli
