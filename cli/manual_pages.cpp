#include <algorithm>

#include "program.hpp"
#include "tables.hpp"

namespace dampline::cli {
namespace {

// Of the pages' form; a date that moved with the clock would change the bytes of every build.
constexpr std::string_view date = "November 29, 2026";

/// Text of a page: nothing in it is a request of mdoc.
std::string plain(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\') {
      out += "\\e";
    } else if (c == '-') {
      out += "\\-";
    } else if (c == '"') {
      out += "\\(dq";
    } else {
      out += c;
    }
  }
  if (out.starts_with('.') || out.starts_with('\'')) out.insert(0, "\\&");
  return out;
}

/// A word of a macro's line: one that mdoc would read as a macro or as punctuation is shielded.
std::string word(std::string_view text) { return "\\&" + plain(text); }

std::string capitals(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(), [](char c) {
    return c >= 'a' && c <= 'z' ? static_cast<char>(c - 32) : c == ' ' ? '-' : c;
  });
  return text;
}

std::string page_name(const Described& t) {
  std::string out = "dampline-" + t.about.command;
  std::replace(out.begin(), out.end(), ' ', '-');
  return out;
}

std::string head(const std::string& name, std::string_view purpose) {
  return ".Dd " + std::string(date) + "\n.Dt " + capitals(name) + " 1\n.Os\n.Sh NAME\n.Nm " + name +
         "\n.Nd " + plain(purpose) + "\n";
}

std::string exit_words() {
  std::string out = ".Sh EXIT STATUS\n.Bl -tag -width Ds\n";
  for (const auto& m : exit_status::meanings) {
    out += ".It " + std::to_string(m.status) + "\n" + plain(m.text) + "\n";
  }
  return out + ".El\n";
}

}  // namespace

std::string manual_of(const Described& t) {
  std::string out = head(page_name(t), t.about.purpose);
  out += ".Sh SYNOPSIS\n.Nm dampline " + t.about.command + "\n";
  if (!t.about.usage.empty()) out += plain(t.about.usage) + "\n";
  out += ".Sh DESCRIPTION\n" + plain(t.about.purpose) + ".\n";
  if (!t.operands.empty()) {
    out += ".Bl -tag -width Ds\n";
    for (const auto& o : t.operands)
      out += ".It Ar " + word(o.value_name) + "\n" + plain(o.help) + "\n";
    out += ".El\n";
  }
  out += ".Sh OPTIONS\n.Bl -tag -width Ds\n";
  for (const auto& o : t.options) {
    out += ".It ";
    if (!o.letter.empty()) out += "Fl " + o.letter + " , ";
    out += "Fl \\-" + plain(o.name);
    if (!o.value_name.empty()) {
      std::string value = word(o.value_name);
      std::replace(value.begin(), value.end(), ' ', '~');
      out += " Ar " + value;
    }
    out += "\n" + plain(o.help) + (o.repeats ? " (may be repeated)" : "") + "\n";
  }
  out += ".It Fl \\-\nends the options\n.El\n" + exit_words();
  if (!t.about.examples.empty()) {
    out += ".Sh EXAMPLES\n";
    for (const auto& e : t.about.examples) out += ".Dl " + word(e) + "\n";
  }
  return out + ".Sh SEE ALSO\n.Xr dampline 1\n";
}

std::string manual(const std::vector<Described>& tables) {
  std::string out = head("dampline", "plans a printing day on damp paper");
  out +=
      ".Sh SYNOPSIS\n.Nm dampline\n.Ar command\n.Op Ar words\n.Nm dampline\nhelp\n.Ar command\n"
      ".Sh DESCRIPTION\n"
      "When to soak, blot, ink and pull, how the sheet grows, and when the prints are dry and\n"
      "flat, from a session file that says what paper, plates, people and room there are.\n"
      ".Bl -tag -width Ds\n";
  for (const auto& t : tables) {
    out += ".It Cm " + word(t.about.command) + "\n" + plain(t.about.purpose) + "; see\n.Xr " +
           page_name(t) + " 1 .\n";
  }
  out +=
      ".El\n.Sh ENVIRONMENT\n.Bl -tag -width Ds\n"
      ".It Ev DAMPLINE_DATA_DIR\nwhere stocks, processes and step times are looked for first\n"
      ".It Ev XDG_DATA_HOME , XDG_DATA_DIRS\nwhere they are looked for next\n"
      ".It Ev XDG_STATE_HOME\nwhere the journal is kept\n"
      ".It Ev SOURCE_DATE_EPOCH\nstands for the clock\n"
      ".It Ev COLUMNS , NO_COLOR , TERM , LC_ALL , LC_CTYPE , LANG\n"
      "width, colour and alphabet of what is printed\n"
      ".El\n";
  out += exit_words();
  out +=
      ".Sh EXAMPLES\n.Dl dampline new my\\-day.toml\n.Dl dampline check my\\-day.toml\n"
      ".Dl dampline plan my\\-day.toml\n"
      ".Sh SEE ALSO\n";
  for (std::size_t i = 0; i < tables.size(); ++i) {
    out += ".Xr " + page_name(tables[i]) + " 1" + (i + 1 < tables.size() ? " ,\n" : "\n");
  }
  out +=
      ".Sh CAVEATS\nPlanning aid only: touch\\-test the paper, follow your workshop's rules.\n"
      "It never sets a press pressure.\n";
  return out;
}

}  // namespace dampline::cli
