#include <array>
#include <cstdint>

#include <dampline/report/characters.hpp>
#include <dampline/report/ics.hpp>

namespace dampline::report {

namespace {

using std::chrono::minutes;

constexpr std::size_t longest_line = 75;  // octets, RFC 5545 section 3.1

std::string utc(Instant at) {
  const std::string text = rfc3339({}, at);  // "2026-03-14T09:48:30+00:00"
  return text.substr(0, 4) + text.substr(5, 2) + text.substr(8, 2) + "T" + text.substr(11, 2) +
         text.substr(14, 2) + text.substr(17, 2) + "Z";
}

/// RFC 5545 section 3.3.11.
std::string escaped(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at <= text.size();) {
    const auto end = std::min(text.find('\n', at), text.size());
    if (at > 0) out += "\\n";
    for (const char c : clean(text.substr(at, end - at))) {
      if (c == '\\' || c == ';' || c == ',') out += '\\';
      out += c;
    }
    at = end + 1;
  }
  return out;
}

/// Cut at 75 octets, never within a character of UTF-8; what goes on begins with a space.
std::string folded(std::string_view line) {
  std::string out;
  std::size_t room = longest_line;
  while (line.size() > room) {
    std::size_t cut = room;
    while (cut > 1 && (static_cast<unsigned char>(line[cut]) & 0xC0U) == 0x80U) --cut;
    out += std::string(line.substr(0, cut)) + "\r\n ";
    line.remove_prefix(cut);
    room = longest_line - 1;
  }
  return out + std::string(line) + "\r\n";
}

/// FNV-1a, 64 bits: any spread would do, but it must never change.
std::uint64_t spread(std::string_view text) {
  std::uint64_t hash = 14695981039346656037U;
  for (const char c : text) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 1099511628211U;
  }
  return hash;
}

std::string hexadecimal(std::uint64_t value) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string out(16, '0');
  for (auto at = out.rbegin(); at != out.rend(); ++at, value >>= 4U) *at = digits[value & 15U];
  return out;
}

class Writer {
 public:
  explicit Writer(const Calendar& calendar) : calendar_(calendar) {}

  std::string write() {
    line("BEGIN:VCALENDAR");
    line("VERSION:2.0");
    line("PRODID:-//dampline//printing day//EN");
    line("CALSCALE:GREGORIAN");
    for (const auto& event : calendar_.events) {
      this->event(event);
      if (calendar_.reminders && event.lead && *event.lead > minutes(0)) reminder(event);
    }
    line("END:VCALENDAR");
    return std::move(out_);
  }

 private:
  void line(std::string_view text) { out_ += folded(text); }

  void event(const CalendarEvent& e) {
    line("BEGIN:VEVENT");
    line("UID:" + event_id(calendar_.identity, e.key));
    line("DTSTAMP:" + utc(calendar_.revised));
    const auto since = std::chrono::floor<minutes>(calendar_.revised.time_since_epoch());
    line("SEQUENCE:" + std::to_string(std::max<long>(0, since.count())));
    line("DTSTART:" + utc(e.start));
    line("DTEND:" + utc(e.end));
    line("SUMMARY:" + escaped(e.summary));
    if (!e.description.empty()) line("DESCRIPTION:" + escaped(e.description));
    line("TRANSP:OPAQUE");
    if (e.lead) alarm(e);  // after every property of the event: some readers take it so only
    line("END:VEVENT");
  }

  void alarm(const CalendarEvent& e) {
    line("BEGIN:VALARM");
    line("ACTION:DISPLAY");
    line("DESCRIPTION:" + escaped(e.summary));
    line(*e.lead == minutes(0) ? std::string("TRIGGER:PT0S")
                               : "TRIGGER:-PT" + std::to_string(e.lead->count()) + "M");
    line("END:VALARM");
  }

  void reminder(const CalendarEvent& e) {
    event({.key = "reminder-" + e.key,
           .start = e.start - *e.lead,
           .end = e.start,
           .summary = "In " + std::to_string(e.lead->count()) + " min: " + e.summary,
           .description = e.description,
           .lead = std::nullopt});
  }

  const Calendar& calendar_;
  std::string out_;
};

}  // namespace

std::string event_id(std::string_view identity, std::string_view key) {
  std::string plain;
  for (const char c : key) {
    const bool kept = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    plain += kept ? c : '-';
  }
  // The key as it is is spread too: what was made plain must not fall together.
  return plain + "." + hexadecimal(spread(std::string(identity) + '\n' + std::string(key))) +
         "@dampline";
}

std::string ics(const Calendar& calendar) { return Writer(calendar).write(); }

}  // namespace dampline::report
