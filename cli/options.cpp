#include "options.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <ostream>

#include <boost/program_options.hpp>

#include <dampline/units/suggest.hpp>
#include <dampline/units/text.hpp>

namespace dampline::cli {
namespace {

namespace po = boost::program_options;

constexpr int widest_help = 80;    // columns, however wide the terminal is
constexpr std::size_t margin = 2;  // before an option's name
constexpr std::size_t gutter = 2;  // between the two columns

// Abbreviated long options are refused: "--ses" must not silently mean "--session".
constexpr int no_guessing =
    po::command_line_style::unix_style & ~po::command_line_style::allow_guessing;

std::vector<std::string> wrapped(std::string_view text, std::size_t width) {
  std::vector<std::string> lines{""};
  std::size_t at = 0;
  while (at < text.size()) {
    const auto end = std::min(text.find(' ', at), text.size());
    const auto word = text.substr(at, end - at);
    if (!lines.back().empty() && lines.back().size() + 1 + word.size() > width)
      lines.emplace_back();
    if (!lines.back().empty()) lines.back() += ' ';
    lines.back() += word;
    at = end + 1;
  }
  return lines;
}

void two_columns(std::string& out, const std::string& left, std::string_view right,
                 std::size_t left_width, std::size_t width) {
  const std::size_t indent = margin + left_width + gutter;
  std::string line = std::string(margin, ' ') + left;
  if (line.size() + gutter > indent) {
    out += line + '\n';
    line.clear();
  }
  for (const auto& part : wrapped(right, width > indent + 20 ? width - indent : 20)) {
    line.resize(std::max(line.size(), indent), ' ');
    out += line + part + '\n';
    line.clear();
  }
}

std::string shown(const Options::Option& o) {
  std::string out = o.letter.empty() ? "" : "-" + o.letter + ", ";
  out += "--" + o.name;
  if (!o.value_name.empty()) out += " " + o.value_name;
  return out;
}

// "--jsno=3" and "-j" as a person would name the option.
std::string bare_name(const std::string& token) {
  const auto equals = token.find('=');
  return token.substr(0, equals);
}

std::optional<double> read_real(const std::string& text) {
  double value = 0;
  const auto* end = text.data() + text.size();
  const auto got = std::from_chars(text.data(), end, value);
  if (got.ec != std::errc() || got.ptr != end || !std::isfinite(value)) return std::nullopt;
  return value;
}

}  // namespace

Options::Options(About about) : about_(std::move(about)) {}

Options& Options::add(std::string_view name, std::string_view value_name, std::string help,
                      bool repeats, std::function<void(const std::string&)> set) {
  const auto comma = name.find(',');
  const auto letter = comma == std::string_view::npos ? "" : name.substr(comma + 1);
  options_.push_back({std::string(name.substr(0, comma)), std::string(letter),
                      std::string(value_name), std::move(help), repeats, std::move(set)});
  return *this;
}

Failure Options::misuse(const std::string& what, const std::string& help) const {
  return {exit_status::usage, what, help.empty() ? "dampline " + about_.command + " --help" : help};
}

Failure Options::refused(std::string_view name, const std::string& value,
                         const units::Refusal& refusal) const {
  return misuse("--" + bare_name(std::string(name.substr(0, name.find(',')))) + " \"" + value +
                    "\": " + refusal.what,
                refusal.help);
}

Options& Options::flag(std::string_view name, bool& to, std::string_view help) {
  return add(name, "", std::string(help), false, [&to](const std::string&) { to = true; });
}

Options& Options::text(std::string_view name, std::optional<std::string>& to,
                       std::string_view value_name, std::string_view help) {
  return add(name, value_name, std::string(help), false,
             [&to](const std::string& value) { to = value; });
}

Options& Options::texts(std::string_view name, std::vector<std::string>& to,
                        std::string_view value_name, std::string_view help) {
  return add(name, value_name, std::string(help), true,
             [&to](const std::string& value) { to.push_back(value); });
}

Options& Options::word(std::string_view name, std::optional<std::string>& to,
                       std::vector<std::string> allowed, std::string_view help) {
  auto text = std::string(help) + ": " + units::listed(allowed, "");
  const auto words = allowed;
  add(name, "WORD", std::move(text), false,
      [this, &to, allowed = std::move(allowed),
       name = std::string(name)](const std::string& value) {
        if (std::find(allowed.begin(), allowed.end(), value) == allowed.end()) {
          const auto near = units::nearest(value, allowed);
          throw refused(
              name, value,
              {0, "not a word this option knows",
               near ? "did you mean " + *near + "? The words are " + units::listed(allowed, "")
                    : "use " + units::listed(allowed, "")});
        }
        to = value;
      });
  options_.back().words = words;
  return *this;
}

Options& Options::whole(std::string_view name, int& to, int low, int high, std::string_view help) {
  const auto range = std::to_string(low) + " to " + std::to_string(high);
  auto text = std::string(help) + " (" + range + "; default " + std::to_string(to) + ")";
  return add(name, "N", std::move(text), false,
             [this, &to, low, high, range, name = std::string(name)](const std::string& value) {
               const auto number = read_real(value);
               if (!number || *number != std::floor(*number) || *number < low || *number > high) {
                 throw refused(
                     name, value,
                     {0, "not a whole number from " + range, "give a whole number from " + range});
               }
               to = static_cast<int>(*number);
             });
}

Options& Options::whole(std::string_view name, std::optional<int>& to, int low, int high,
                        std::string_view help) {
  const auto range = std::to_string(low) + " to " + std::to_string(high);
  return add(name, "N", std::string(help) + " (" + range + ")", false,
             [this, &to, low, high, range, name = std::string(name)](const std::string& value) {
               const auto number = read_real(value);
               if (!number || *number != std::floor(*number) || *number < low || *number > high) {
                 throw refused(
                     name, value,
                     {0, "not a whole number from " + range, "give a whole number from " + range});
               }
               to = static_cast<int>(*number);
             });
}

Options& Options::real(std::string_view name, double& to, double low, double high,
                       std::string_view help) {
  const auto range = units::shortest(low) + " to " + units::shortest(high);
  auto text = std::string(help) + " (" + range + "; default " + units::shortest(to) + ")";
  return add(name, "X", std::move(text), false,
             [this, &to, low, high, range, name = std::string(name)](const std::string& value) {
               const auto number = read_real(value);
               if (!number || *number < low || *number > high) {
                 throw refused(
                     name, value,
                     {0, "not a number from " + range, "give a plain number from " + range});
               }
               to = *number;
             });
}

Options& Options::operand(std::string_view value_name, std::string& to, std::string_view help) {
  operands_.push_back({std::string(value_name), std::string(help), true, false,
                       [&to](const std::string& value) { to = value; }});
  return *this;
}

Options& Options::optional_operand(std::string_view value_name, std::optional<std::string>& to,
                                   std::string_view help) {
  operands_.push_back({std::string(value_name), std::string(help), false, false,
                       [&to](const std::string& value) { to = value; }});
  return *this;
}

Options& Options::operands(std::string_view value_name, std::vector<std::string>& to,
                           std::string_view help) {
  operands_.push_back({std::string(value_name), std::string(help), false, true,
                       [&to](const std::string& value) { to.push_back(value); }});
  return *this;
}

const Options::Option* Options::find(std::string_view name) const {
  for (const auto& o : options_) {
    if (o.name == name) return &o;
  }
  return nullptr;
}

namespace {

// The words as options and operands, or the parser's complaint turned into ours.
std::vector<po::option> parsed(Arguments args, const std::vector<Options::Option>& table,
                               const std::function<Failure(std::string, std::string)>& misuse) {
  po::options_description description;
  for (const auto& o : table) {
    const auto name = o.letter.empty() ? o.name : o.name + "," + o.letter;
    if (o.value_name.empty()) {
      description.add_options()(name.c_str(), "");
    } else {
      description.add_options()(name.c_str(), po::value<std::string>(), "");
    }
  }
  const std::vector<std::string> words(args.begin(), args.end());
  try {
    return po::command_line_parser(words).options(description).style(no_guessing).run().options;
  } catch (const po::unknown_option& e) {
    const auto name = bare_name(e.get_option_name());
    std::vector<std::string> names;
    for (const auto& o : table) names.push_back("--" + o.name);
    const auto near = units::nearest(name, names);
    throw misuse("unknown option " + name, near ? "did you mean " + *near + "?" : "");
  } catch (const po::invalid_command_line_syntax& e) {
    const auto name = bare_name(e.get_option_name());
    switch (e.kind()) {
      case po::invalid_syntax::missing_parameter:
      case po::invalid_command_line_syntax::empty_adjacent_parameter:
        throw misuse("option " + name + " needs a value", "");
      case po::invalid_syntax::extra_parameter:
        throw misuse("option " + name + " takes no value", "");
      default:
        throw misuse("option " + name + " is not written as it should be", "");
    }
  } catch (const po::error&) {
    throw misuse("the options cannot be read", "");
  }
}

}  // namespace

bool Options::parse(Arguments args, Streams& io) const {
  bool help_wanted = false;
  bool ascii = false;
  std::optional<std::string> colour;
  Options common(about_);
  common.options_ = options_;
  common.operands_ = operands_;
  common.flag("help,h", help_wanted, "this text")
      .word("color", colour, {"always", "never"}, "colour, whatever the terminal and NO_COLOR say")
      .flag("ascii", ascii, "nothing but ASCII in the output");
  const auto found = parsed(
      args, common.options_,
      [this](const std::string& what, const std::string& remedy) { return misuse(what, remedy); });
  const auto is_help = [](const po::option& o) { return o.string_key == "help"; };
  if (std::any_of(found.begin(), found.end(), is_help)) {
    if (io.described != nullptr) {
      *io.described = {about_, common.options_, common.operands_};
      return false;
    }
    io.out << common.help(std::min(io.columns, widest_help));
    return false;
  }
  std::vector<std::string> seen;
  std::size_t operands_given = 0;
  for (const auto& token : found) {
    const auto* option = token.string_key.empty() ? nullptr : common.find(token.string_key);
    if (option == nullptr) {
      for (const auto& value : token.value) {
        if (value.empty()) throw misuse("an empty word where an operand was expected");
        const bool more = !operands_.empty() && operands_.back().many;
        if (operands_given >= operands_.size() && !more) {
          throw misuse("one word too many: \"" + value + "\"");
        }
        operands_[std::min(operands_given, operands_.size() - 1)].set(value);
        ++operands_given;
      }
      continue;
    }
    if (!option->repeats && std::find(seen.begin(), seen.end(), option->name) != seen.end()) {
      throw misuse("option --" + option->name + " is given twice", "give it once");
    }
    seen.push_back(option->name);
    const auto value = token.value.empty() ? std::string() : token.value.front();
    if (!option->value_name.empty() && value.empty()) {
      throw misuse("option --" + option->name + " needs a value");
    }
    option->set(value);
  }
  for (std::size_t i = operands_given; i < operands_.size(); ++i) {
    if (operands_[i].required) {
      throw misuse("missing " + operands_[i].value_name + ": " + operands_[i].help);
    }
  }
  if (colour) io.out_colour = io.err_colour = *colour == "always";
  if (ascii) io.utf8 = false;
  return true;
}

std::string Options::help(int columns) const {
  const auto width = static_cast<std::size_t>(std::clamp(columns, 40, widest_help));
  std::string out;
  for (const auto& line : wrapped("dampline " + about_.command + ": " + about_.purpose, width)) {
    out += line + '\n';
  }
  out += "\nusage: dampline " + about_.command + (about_.usage.empty() ? "" : " " + about_.usage) +
         "\n";
  if (!about_.examples.empty()) out += "\nexamples\n";
  for (const auto& example : about_.examples) out += "  " + example + '\n';
  std::size_t left = 0;
  constexpr std::size_t widest_left = 30;
  for (const auto& o : options_) {
    if (shown(o).size() <= widest_left) left = std::max(left, shown(o).size());
  }
  for (const auto& o : operands_) left = std::max(left, o.value_name.size());
  if (!operands_.empty()) out += '\n';
  for (const auto& o : operands_) two_columns(out, o.value_name, o.help, left, width);
  if (!options_.empty()) out += "\noptions\n";
  for (const auto& o : options_) {
    two_columns(out, shown(o), o.repeats ? o.help + " (may be repeated)" : o.help, left, width);
  }
  return out;
}

}  // namespace dampline::cli
