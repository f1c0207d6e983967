#include <dampline/planner/builder.hpp>
#include <dampline/planner/draft.hpp>
#include <dampline/session/zone.hpp>

namespace dampline::planner {

HalfMinutes day_length(const session::Session& session) {
  return session::since_opening(session.day, session.day.until);
}

Draft draft(const session::Session& session, const Craft& craft, const Treatment& treatment,
            const Extent& extent) {
  return Builder(session, craft, treatment, extent).build();
}

}  // namespace dampline::planner
