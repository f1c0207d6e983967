#include <algorithm>

#include <dampline/session/starter.hpp>
#include <dampline/units/suggest.hpp>

namespace dampline::session {
namespace {

constexpr std::string_view head =
    "# A printing session.\n"
    "#   dampline check FILE   says what is wrong in it\n"
    "#   dampline plan FILE    plans the day\n"
    "# Quantities are text with a unit: \"300 g/m2\", \"22 x 30 in\", \"35 min\", \"64 degF\".\n"
    "# A line that begins with # is switched off; take the # away to use it.\n";

std::string unquoted(std::string_view text) {
  std::string out(text);
  std::erase(out, '"');
  return out;
}

std::string_view last_name(std::string_view path) {
  return path.substr(path.find_last_of('.') + 1);
}

std::string_view parent(std::string_view path) {
  const auto dot = path.find_last_of('.');
  return dot == std::string_view::npos ? "" : path.substr(0, dot);
}

bool is_block(const Key& k) {
  const bool holds = k.form == Form::table || k.form == Form::tables;
  return holds && k.path.find('.') == std::string_view::npos;
}

std::vector<const Key*> children(std::string_view path, bool of_list) {
  const auto prefix = std::string(path) + (of_list ? "[]." : ".");
  std::vector<const Key*> out;
  for (const auto& k : keys()) {
    if (k.path.starts_with(prefix) && last_name(k.path).size() + prefix.size() == k.path.size()) {
      out.push_back(&k);
    }
  }
  return out;
}

// A table inside a table is written on one line, in braces.
std::string inline_example(const Key& k) {
  if (k.form != Form::table) return std::string(k.example);
  std::string out = "{ ";
  for (const auto* child : children(k.path, false)) {
    if (out.size() > 2) out += ", ";
    out += std::string(last_name(child->path)) + " = " + std::string(child->example);
  }
  return out + " }";
}

std::string comment(const Key& k) {
  const auto rest = limits(k);
  return "# " + std::string(k.meaning) + (rest.empty() ? "" : "; " + rest) + "\n";
}

// Off unless the file would be poorer without it.
bool switched_off(const Key& k) { return k.need == Need::optional && !k.shown; }

std::string assignment(const Key& k) {
  std::string out = comment(k);
  for (const auto* child : children(k.path, k.form == Form::tables)) {
    out += "#   " + std::string(last_name(child->path)) + ": " + comment(*child).substr(2);
  }
  return out + (switched_off(k) ? "# " : "") + std::string(last_name(k.path)) + " = " +
         inline_example(k) + "\n";
}

}  // namespace

std::string limits(const Key& k) {
  std::string out;
  const bool many = k.form == Form::tables;
  if (!k.words.empty()) {
    const std::vector<std::string> words(k.words.begin(), k.words.end());
    out = units::listed(words, "");
  } else if (!k.low.empty()) {
    out = (many ? "as many as " : std::string(k.low) + " to ") + std::string(k.high);
  }
  const bool table = k.form == Form::table || (many && k.need == Need::required);
  if (!table && k.need != Need::required) {
    out += (out.empty() ? "else " : "; else ") +
           (many ? std::string(k.fallback) : unquoted(k.fallback));
  }
  return out;
}

std::string starter() {
  std::string out(head);
  for (const auto& k : keys()) {
    const auto inside = parent(k.path);
    if (is_block(k)) {
      const bool many = k.form == Form::tables;
      out +=
          "\n" + comment(k) + (many ? "[[" : "[") + std::string(k.path) + (many ? "]]\n" : "]\n");
    } else if (inside.empty()) {
      out += "\n" + assignment(k);
    } else {
      const auto top = inside.ends_with("[]") ? inside.substr(0, inside.size() - 2) : inside;
      if (top.find('.') == std::string_view::npos) out += assignment(k);
    }
  }
  return out;
}

}  // namespace dampline::session
