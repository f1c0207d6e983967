#include <cmath>

#include <dampline/report/markup.hpp>
#include <dampline/units/text.hpp>

namespace dampline::report {

namespace {

/// The space of "52 %".
bool before_percent(std::string_view text, std::size_t at) {
  return at > 0 && text[at - 1] >= '0' && text[at - 1] <= '9' && text.substr(at).starts_with(" %");
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      case ' ':
        out += before_percent(text, i) ? "\u00a0" : " ";
        break;
      default:
        out += c;
    }
  }
  return out;
}

std::string coordinate(double value) { return units::shortest(std::round(value * 100) / 100); }

void Markup::begin(std::string_view tag, std::initializer_list<Attribute> attributes) {
  out_ += '<';
  out_ += tag;
  for (const auto& [name, value] : attributes) {
    if (value.empty()) continue;
    out_ += ' ';
    out_ += name;
    out_ += "=\"" + escaped(value) + "\"";
  }
}

Markup& Markup::open(std::string_view tag, std::initializer_list<Attribute> attributes) {
  begin(tag, attributes);
  out_ += '>';
  open_.emplace_back(tag);
  return *this;
}

Markup& Markup::empty(std::string_view tag, std::initializer_list<Attribute> attributes) {
  begin(tag, attributes);
  out_ += "/>";
  return *this;
}

Markup& Markup::text(std::string_view text) {
  out_ += escaped(text);
  return *this;
}

Markup& Markup::close() {
  if (open_.empty()) return *this;
  out_ += "</" + open_.back() + ">";
  open_.pop_back();
  return *this;
}

Markup& Markup::element(std::string_view tag, std::string_view text,
                        std::initializer_list<Attribute> attributes) {
  return open(tag, attributes).text(text).close();
}

Markup& Markup::line() {
  out_ += '\n';
  return *this;
}

Markup& Markup::verbatim(std::string_view markup) {
  out_ += markup;
  return *this;
}

std::string Markup::take() {
  while (!open_.empty()) close();
  return std::move(out_);
}

}  // namespace dampline::report
