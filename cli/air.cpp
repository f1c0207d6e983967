#include <ostream>

#include <dampline/air/evaporation.hpp>
#include <dampline/air/psychrometrics.hpp>
#include <dampline/report/json.hpp>
#include <dampline/units/text.hpp>

#include "air_log.hpp"
#include "command.hpp"
#include "json_option.hpp"
#include "log_option.hpp"
#include "options.hpp"
#include "output_file.hpp"

namespace dampline::cli {
namespace {

struct Wanted {
  air::Reading reading;
  std::optional<units::Pressure> pressure;
  std::optional<units::Length> altitude;
  std::optional<std::string> movement;
  LogWords log;
  bool json = false;
  std::optional<std::string> output;
};

struct Drying {
  air::Evaporation free_water;
  double doubt;  // of the rate, as a share
};

struct Answer {
  air::AirState state;
  air::AirMovement movement;
  std::optional<Drying> drying;  // none outside 0 to 45 degC
};

void check(const Wanted& w) {
  const auto& r = w.reading;
  const int given = int(r.temperature.has_value()) + int(r.humidity.has_value()) +
                    int(r.wet_bulb.has_value()) + int(r.dew_point.has_value());
  if (w.log.readings) {
    if (given > 0) {
      throw Failure(exit_status::usage, "a log of the air and a reading of it",
                    "leave out --readings, or --temperature, --humidity, --wet-bulb and "
                    "--dew-point");
    }
  } else if (given != 2) {
    throw Failure(exit_status::usage,
                  std::to_string(given) + (given == 1 ? " reading" : " readings") +
                      " of the air; two are needed",
                  "give two of --temperature, --humidity, --wet-bulb and --dew-point, or "
                  "--readings FILE");
  }
  if (w.pressure && w.altitude) {
    throw Failure(exit_status::usage, "a pressure and an altitude",
                  "give --pressure or --altitude, not both");
  }
}

air::AirMovement movement_of(const std::optional<std::string>& word) {
  if (word == "still") return air::AirMovement::still;
  if (word == "fan") return air::AirMovement::fan;
  return air::AirMovement::ordinary;
}

const char* word_of(air::AirMovement m) {
  if (m == air::AirMovement::still) return "still";
  return m == air::AirMovement::fan ? "fan" : "ordinary";
}

units::Pressure pressure_of(const Wanted& w) {
  if (w.pressure) return *w.pressure;
  return w.altitude ? air::standard_atmosphere(*w.altitude) : units::pascal(101325);
}

// A log summed up; false: none is named.
bool summed_up(const Wanted& w, Streams& io) {
  auto log = log_of(w.log, std::nullopt, io);
  if (!log) return false;
  air::Climate base;
  base.pressure = pressure_of(w);
  base.air = movement_of(w.movement);
  const auto summary = summary_of(std::move(*log), base);
  const std::vector<std::string> inputs{*w.log.readings};
  write_output(w.output.value_or("-"), w.json ? log_json(summary) : log_text(summary, io.columns),
               io, inputs);
  return true;
}

Answer answer(const Wanted& w) {
  const units::Pressure pressure = pressure_of(w);
  Answer a{air::state_from(w.reading, pressure), movement_of(w.movement), std::nullopt};
  const double celsius = units::in_celsius(a.state.temperature);
  if (celsius >= 0 && celsius <= 45) {
    a.drying = Drying{
        air::evaporation({.temperature = a.state.temperature,
                          .humidity = a.state.humidity,
                          .pressure = pressure,
                          .air = a.movement},
                         air::Mounting::hung, units::centimetres(56), units::centimetres(76)),
        a.movement == air::AirMovement::fan ? 0.20 : 0.25};
  }
  return a;
}

double loss_g_m2_h(const Drying& d) { return units::in_si(d.free_water.loss) * 3.6e6; }

std::string as_json(const Answer& a) {
  const auto& s = a.state;
  report::JsonWriter json;
  json.begin_object()
      .member("format", "dampline-air")
      .member("version", 1)
      .member("temperature_c", units::in_celsius(s.temperature))
      .member("humidity_percent", s.humidity.percent())
      .member("wet_bulb_c", units::in_celsius(s.wet_bulb))
      .member("dew_point_c", s.dew_point ? std::optional(units::in_celsius(*s.dew_point))
                                         : std::optional<double>())
      .member("pressure_pa", units::in_si(s.pressure))
      .member("vapour_pressure_pa", units::in_si(s.vapour_pressure))
      .member("saturation_pressure_pa", units::in_si(s.saturation_pressure))
      .member("humidity_ratio", s.humidity_ratio.parts_of_one())
      .member("density_kg_m3", units::in_si(s.density))
      .member("air", word_of(a.movement));
  std::optional<double> loss;
  std::optional<double> low;
  std::optional<double> high;
  std::optional<double> sheet;
  if (a.drying) {
    loss = loss_g_m2_h(*a.drying);
    low = *loss - a.drying->doubt * std::abs(*loss);
    high = *loss + a.drying->doubt * std::abs(*loss);
    sheet = units::in_celsius(a.drying->free_water.surface);
  }
  json.member("evaporation_g_m2_h", loss)
      .member("evaporation_low_g_m2_h", low)
      .member("evaporation_high_g_m2_h", high)
      .member("wet_sheet_c", sheet)
      .end_object();
  return json.take();
}

std::string line(std::string label, const std::string& value) {
  label.resize(22, ' ');
  return label + value + '\n';
}

std::string as_text(const Answer& a) {
  const auto& s = a.state;
  const auto celsius = [](units::Temperature t) {
    return units::fixed(units::in_celsius(t), 1) + " degC";
  };
  std::string out;
  out += line("temperature", celsius(s.temperature));
  out += line("humidity", units::fixed(s.humidity.percent(), 1) + " %");
  out += line("wet bulb", celsius(s.wet_bulb));
  out += line("dew point", s.dew_point ? celsius(*s.dew_point) : "below -40 degC");
  out += line("air pressure", units::fixed(units::in_si(s.pressure) / 100, 0) + " hPa");
  out += line("vapour pressure", units::fixed(units::in_si(s.vapour_pressure), 0) + " Pa of " +
                                     units::fixed(units::in_si(s.saturation_pressure), 0) +
                                     " Pa at saturation");
  out += line("humidity ratio",
              units::fixed(s.humidity_ratio.parts_of_one() * 1e3, 2) + " g/kg dry air");
  out += line("density", units::fixed(units::in_si(s.density), 3) + " kg/m3");
  if (!a.drying) {
    return out + line("drying power", "known from 0 to 45 degC only");
  }
  out += line("drying power", units::fixed(loss_g_m2_h(*a.drying), 0) +
                                  " g/m2h from a wet sheet hung in " + word_of(a.movement) +
                                  " air (+-" + units::fixed(a.drying->doubt * 100, 0) + " %)");
  return out + line("wet sheet", celsius(a.drying->free_water.surface) + " while it is wet");
}

}  // namespace

int run_air(Arguments args, Streams io) {
  Wanted w;
  Options options(
      {.command = "air",
       .purpose = "what a reading of the air, or a log, means, and how fast it dries a wet sheet",
       .usage = "READINGS [OPTIONS]",
       .examples = {"dampline air --temperature \"17 degC\" --humidity \"52 %\"",
                    "dampline air --temperature \"64 degF\" --wet-bulb \"55 degF\" "
                    "--air still",
                    "dampline air -t \"20 degC\" -u \"35 %\" --altitude \"2240 m\" --json",
                    "dampline air --readings hygrometer.csv"}});
  options
      .quantity("temperature,t", w.reading.temperature, units::parse_temperature, "17 degC",
                "of the air (-20 to 60 degC)")
      .quantity("humidity,u", w.reading.humidity, units::parse_humidity, "52 %",
                "relative (0 to 100 %)")
      .quantity("wet-bulb", w.reading.wet_bulb, units::parse_temperature, "12 degC",
                "of a ventilated wet thermometer")
      .quantity("dew-point", w.reading.dew_point, units::parse_temperature, "7 degC",
                "where the air would be saturated")
      .quantity("pressure", w.pressure, units::parse_pressure, "1013 hPa",
                "of the air (100 to 2000 hPa; default 1013.25 hPa)")
      .quantity("altitude", w.altitude, units::parse_length, "90 m",
                "instead of the pressure (0 to 10000 m)")
      .word("air", w.movement, {"still", "ordinary", "fan"},
            "how it moves past the sheet (default ordinary)");
  add_log_options(options, w.log);
  options.flag("json", w.json, "as JSON")
      .text("output,o", w.output, "FILE", "write to FILE (default -, standard output)");
  const auto words = with_plain_json(args);
  if (!options.parse(words, io)) return exit_status::done;
  check(w);
  if (summed_up(w, io)) return exit_status::done;
  const auto a = answer(w);
  write_output(w.output.value_or("-"), w.json ? as_json(a) : as_text(a), io);
  return exit_status::done;
}

}  // namespace dampline::cli
