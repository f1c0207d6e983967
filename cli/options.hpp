#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <dampline/units/parse.hpp>

#include "command.hpp"

namespace dampline::cli {

/// What the head of a command's help says.
struct About {
  std::string command;                ///< "air"
  std::string purpose;                ///< one sentence
  std::string usage;                  ///< what follows "dampline air": "[OPTIONS]"
  std::vector<std::string> examples;  ///< whole command lines, two or three, real ones
};

/// The one options table of a command: parser, checks and help all read it.
///
/// Long names in full only (no guessing); "--" ends the options; "-" is an operand; options may
/// follow operands. Every table has --help, --color and --ascii. A value that is not what the
/// option takes throws Failure (usage) with what was expected and what to write.
class Options {
 public:
  explicit Options(About about);
  Options(const Options&) = delete;  // the setters keep its address
  Options& operator=(const Options&) = delete;

  /// `name` is "long" or "long,s".
  Options& flag(std::string_view name, bool& to, std::string_view help);
  Options& text(std::string_view name, std::optional<std::string>& to, std::string_view value_name,
                std::string_view help);
  /// May be given several times.
  Options& texts(std::string_view name, std::vector<std::string>& to, std::string_view value_name,
                 std::string_view help);
  /// One of the words allowed; the help lists them.
  Options& word(std::string_view name, std::optional<std::string>& to,
                std::vector<std::string> allowed, std::string_view help);
  /// A whole number from low to high; the help states the range and the default (its value now).
  Options& whole(std::string_view name, int& to, int low, int high, std::string_view help);
  /// The same where the default is not one number: the help has to say it.
  Options& whole(std::string_view name, std::optional<int>& to, int low, int high,
                 std::string_view help);
  /// A plain number from low to high, likewise.
  Options& real(std::string_view name, double& to, double low, double high, std::string_view help);
  /// A quantity with its unit, read by one of units/parse.hpp. `example` is shown in the help.
  template <class Quantity>
  Options& quantity(std::string_view name, std::optional<Quantity>& to,
                    units::Parsed<Quantity> (*reader)(std::string_view), std::string_view example,
                    std::string_view help);
  /// The same, several times: "--at".
  template <class Quantity>
  Options& quantities(std::string_view name, std::vector<Quantity>& to,
                      units::Parsed<Quantity> (*reader)(std::string_view), std::string_view example,
                      std::string_view help);

  /// Operands, in the order declared. After one that is optional or takes many, no other.
  Options& operand(std::string_view value_name, std::string& to, std::string_view help);
  Options& optional_operand(std::string_view value_name, std::optional<std::string>& to,
                            std::string_view help);
  Options& operands(std::string_view value_name, std::vector<std::string>& to,
                    std::string_view help);

  /// Reads the words into the targets. False: help was asked for and stands on io.out; return done.
  [[nodiscard]] bool parse(Arguments args, Streams& io) const;

  [[nodiscard]] std::string help(int columns = 80) const;

  struct Option {
    std::string name;        ///< long name
    std::string letter;      ///< short name or empty
    std::string value_name;  ///< empty: a flag
    std::string help;
    bool repeats = false;
    std::function<void(const std::string&)> set;
    std::vector<std::string> words{};  ///< the values it takes, when they are known
  };
  struct Operand {
    std::string value_name;
    std::string help;
    bool required = true;
    bool many = false;
    std::function<void(const std::string&)> set;
  };
  [[nodiscard]] const std::vector<Option>& table() const { return options_; }

 private:
  Options& add(std::string_view name, std::string_view value_name, std::string help, bool repeats,
               std::function<void(const std::string&)> set);
  [[nodiscard]] Failure misuse(const std::string& what, const std::string& help = {}) const;
  [[nodiscard]] Failure refused(std::string_view name, const std::string& value,
                                const units::Refusal& refusal) const;
  [[nodiscard]] const Option* find(std::string_view name) const;

  About about_;
  std::vector<Option> options_;
  std::vector<Operand> operands_;
};

/// The options table of a command as data, the options of every command in it: what completions and
/// the manual are made of. Its setters are not to be called.
struct Described {
  About about;
  std::vector<Options::Option> options;
  std::vector<Options::Operand> operands;
};

template <class Quantity>
Options& Options::quantity(std::string_view name, std::optional<Quantity>& to,
                           units::Parsed<Quantity> (*reader)(std::string_view),
                           std::string_view example, std::string_view help) {
  return add(name, "\"" + std::string(example) + "\"", std::string(help), false,
             [this, &to, reader, name = std::string(name)](const std::string& value) {
               const auto parsed = reader(value);
               if (!units::ok(parsed)) {
                 throw refused(name, value, std::get<units::Refusal>(parsed));
               }
               to = std::get<Quantity>(parsed);
             });
}

template <class Quantity>
Options& Options::quantities(std::string_view name, std::vector<Quantity>& to,
                             units::Parsed<Quantity> (*reader)(std::string_view),
                             std::string_view example, std::string_view help) {
  return add(name, "\"" + std::string(example) + "\"", std::string(help), true,
             [this, &to, reader, name = std::string(name)](const std::string& value) {
               const auto parsed = reader(value);
               if (!units::ok(parsed)) {
                 throw refused(name, value, std::get<units::Refusal>(parsed));
               }
               to.push_back(std::get<Quantity>(parsed));
             });
}

}  // namespace dampline::cli
