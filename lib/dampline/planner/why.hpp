#pragma once

#include <string>
#include <vector>

#include <dampline/planner/fit.hpp>
#include <dampline/planner/ground.hpp>

/// Why a step is where it is: the ties that hold it, one after the other.
namespace dampline::planner {

/// One tie, told from the step it holds: what is at its other end, and why that matters.
struct WhyLink {
  Ground ground = Ground::order;
  std::string step;  ///< id at the other end; empty: the opening, the finish, somebody's hours
  std::string name;  ///< of that step: "print 3", "lift, drain and blot, sheets 1-5"
  HalfMinutes start{};
  HalfMinutes end{};
  std::string resource;                      ///< that both take, one after the other; empty: none
  ResourceKind kind = ResourceKind::person;  ///< of the resource
  HalfMinutes wait{};                        ///< the soak, rest, wait of ink or wash between them
  HalfMinutes clear{};  ///< of a window: how far the plan keeps from its end, within the wait
  int print = 0;        ///< of a rest: the print that asks for it, and when it is pulled
  HalfMinutes pulled{};
};

/// When a sheet is printable that is pulled in the step.
struct WhyWindow {
  int print = 0;
  std::vector<HalfMinutes> pulled;
  HalfMinutes from{};
  HalfMinutes until{};
  HalfMinutes opens{};  ///< so long after it is covered
};

struct Why {
  std::string step;  ///< id; "finish"
  std::string name;
  HalfMinutes start{};
  HalfMinutes end{};
  std::string after;  ///< id of the part just before it, of the same work; empty: it is the first
  HalfMinutes begins{};  ///< that work, done in one go; the ties are those of its begin
  /// A step that could come sooner is put as late as what follows it allows: what it is needed for,
  /// nearest first, up to something that is held from below.
  std::vector<WhyLink> needed_for;
  /// What holds the last of those, or the step itself, from below; then what holds that ..., down
  /// to the opening or to something with a time of its own.
  std::vector<WhyLink> waits_for;
  HalfMinutes earlier{};       ///< by how much it could start sooner, others moving along
  HalfMinutes later{};         ///< by how much later with the finish and the margin as they are
  HalfMinutes later_nearer{};  ///< likewise if pulls may come nearer to the ends of their windows
  HalfMinutes later_at_all{};  ///< likewise if the day is used to its end, too
  std::vector<WhyWindow> windows;
};

/// Of the step with this id, or of "finish", in a fitted plan: its finish and the margin of its
/// pulls are held, too. The steps are those of lay_out(). Throws std::invalid_argument when there
/// is none.
[[nodiscard]] Why why(const Fit& fit, const std::vector<Step>& steps, const Treatment& treatment,
                      const std::string& step);

}  // namespace dampline::planner
