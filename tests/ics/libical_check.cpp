// Holds calendar files to RFC 5545 with libical.
//   dampline_libical_check FILE...          each must be accepted; its events go to standard output
//   dampline_libical_check --refuse FILE    must not be
// libical is lax as long as a calendar has no METHOD: a copy is given METHOD:PUBLISH and
// organizers, for then it misses ids and stamps. Line ends, folding and order of times it never
// checks: we do.
#include <cstdio>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include <libical/ical.h>

namespace {

std::vector<std::string> faults;

void fault(const std::string& what) { faults.push_back(what); }

void check_lines(const std::string& text) {
  std::size_t length = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n') {
      if (length > 75) fault("a line of " + std::to_string(length) + " octets");
      length = 0;
      ++i;
    } else if (text[i] == '\r' || text[i] == '\n') {
      fault("a bare line end");
    } else {
      ++length;
    }
  }
  if (length > 0) fault("the last line does not end");
}

int errors_in(icalcomponent* part) {
  int found = 0;
  for (auto* p = icalcomponent_get_first_property(part, ICAL_XLICERROR_PROPERTY); p != nullptr;
       p = icalcomponent_get_next_property(part, ICAL_XLICERROR_PROPERTY)) {
    fault(icalproperty_as_ical_string(p));
    ++found;
  }
  for (auto* c = icalcomponent_get_first_component(part, ICAL_ANY_COMPONENT); c != nullptr;
       c = icalcomponent_get_next_component(part, ICAL_ANY_COMPONENT)) {
    found += errors_in(c);
  }
  return found;
}

void check_event(icalcomponent* event, bool print) {
  const auto start = icalcomponent_get_dtstart(event), end = icalcomponent_get_dtend(event);
  if (icaltime_is_null_time(start) || !icaltime_is_utc(start)) fault("a start that is not UTC");
  if (icaltime_compare(end, start) <= 0) fault("an event that does not end after it starts");
  if (print) {
    std::printf("%s\t%ld\t%s\n", icalcomponent_get_uid(event), icaltime_as_timet(start),
                icalcomponent_get_summary(event));
  }
  icalcomponent_add_property(event, icalproperty_new_organizer("mailto:nobody@example.org"));
}

void check(const std::string& path, bool print) {
  std::ifstream in(path, std::ios::binary);
  const std::string text(std::istreambuf_iterator<char>(in), {});
  if (text.empty()) return fault("nothing to read");
  check_lines(text);
  icalcomponent* calendar = icalparser_parse_string(text.c_str());
  if (calendar == nullptr) return fault("libical reads no calendar");
  if (icalcomponent_isa(calendar) != ICAL_VCALENDAR_COMPONENT) fault("not one VCALENDAR");
  int events = 0;
  for (auto* e = icalcomponent_get_first_component(calendar, ICAL_VEVENT_COMPONENT); e != nullptr;
       e = icalcomponent_get_next_component(calendar, ICAL_VEVENT_COMPONENT)) {
    check_event(e, print);
    ++events;
  }
  if (events == 0) fault("no event");
  icalcomponent_add_property(calendar, icalproperty_new_method(ICAL_METHOD_PUBLISH));
  if (icalrestriction_check(calendar) == 0) fault("against the restrictions of RFC 5546");
  errors_in(calendar);
  icalcomponent_free(calendar);
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<std::string> words(argv + 1, argv + argc);
  const bool refuse = !words.empty() && words.front() == "--refuse";
  for (std::size_t i = refuse ? 1 : 0; i < words.size(); ++i) check(words[i], !refuse);
  if (!refuse) {
    for (const auto& f : faults) std::fprintf(stderr, "libical: %s\n", f.c_str());
  }
  return faults.empty() == refuse || words.empty() ? 1 : 0;
}
