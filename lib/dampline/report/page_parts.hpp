#pragma once

#include <dampline/report/markup.hpp>
#include <dampline/report/view.hpp>

/// The parts of the page, each a section of its own; one without anything to show writes nothing.
namespace dampline::report {

void begin_section(Markup& out, const std::string& id, const char* heading);
void end_section(Markup& out);
void list_section(Markup& out, const char* id, const char* heading,
                  const std::vector<std::string>& lines);
/// Column heads of a table, which is left open at its first row.
void open_table(Markup& out, const char* kind, const std::vector<std::string>& heads);

/// What only a script can show: the clock, what to do now, being late, what was done. Hidden
/// without one.
void now_section(Markup& out, const View& v);
void steps_section(Markup& out, const View& v);

void ready_section(Markup& out, const View& v);
void fit_section(Markup& out, const View& v);
void pictures_section(Markup& out, const View& v);
void pulls_section(Markup& out, const View& v);
void after_section(Markup& out, const View& v);
/// To fill in by pencil.
void record_section(Markup& out, const View& v);

}  // namespace dampline::report
