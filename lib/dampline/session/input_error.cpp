#include <algorithm>

#include <dampline/session/input_error.hpp>
#include <dampline/session/utf8.hpp>

namespace dampline::session {
namespace {

constexpr std::size_t longest_excerpt = 200;  // columns; a longer line hides more than it shows

std::string line_of(std::string_view text, int line) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  for (int n = 1; n < line; ++n) {
    const auto end = text.find('\n');
    if (end == std::string_view::npos) return "";
    text.remove_prefix(end + 1);
  }
  auto found = text.substr(0, text.find('\n'));
  if (found.ends_with('\r')) found.remove_suffix(1);
  return without_controls(found);
}

// Blanks up to a column of the line, its tabs kept, so that the caret stands right at any tab
// width.
std::string blanks_before(std::string_view line, int column) {
  std::string out;
  std::size_t at = 0;
  for (int n = 1; n < column && at < line.size(); ++n) {
    const auto length = std::max<std::size_t>(sequence_length(line, at), 1);
    const auto character = line.substr(at, length);
    out += character == "\t" ? "\t" : std::string(columns(character), ' ');
    at += length;
  }
  return out;
}

}  // namespace

std::string rendered(const InputError& e, std::string_view severity) {
  std::string out = without_controls(e.file);
  if (e.where.line > 0) {
    out += ":" + std::to_string(e.where.line) + ":" + std::to_string(e.where.column);
  }
  out += ": " + std::string(severity) + ": " + without_controls(e.what) + "\n";
  if (!e.excerpt.empty()) {
    out += e.excerpt + "\n" + blanks_before(e.excerpt, e.where.column) + "^\n";
  }
  return out + "help: " + without_controls(e.help) + "\n";
}

InputError at(std::string_view file, std::string_view text, Place where, std::string what,
              std::string help) {
  InputError e;
  e.file = std::string(file);
  e.where = where;
  e.what = std::move(what);
  e.help = std::move(help);
  if (where.line > 0) {
    auto line = line_of(text, where.line);
    if (columns(line) <= longest_excerpt) e.excerpt = std::move(line);
  }
  return e;
}

}  // namespace dampline::session
