#include <algorithm>
#include <cstdlib>
#include <map>
#include <stdexcept>
#include <utility>

#include <dampline/scheduling/goal.hpp>

namespace dampline::scheduling {
namespace {

constexpr long long largest_value = 1 << 27;

/// A weighted sum of model variables and a constant.
struct Linear {
  std::map<int, long long> weight;  ///< variable -> weight
  long long constant = 0;

  void add(const Model& model, int activity, long long by) {
    weight[model.start_of[activity]] += by;
    constant += by * model.offset_of[activity];
  }
};

int small(long long value) {
  if (std::llabs(value) > largest_value) {
    throw std::invalid_argument("the values of an objective are too large");
  }
  return static_cast<int>(value);
}

/// linear <= most
void add_sum(const Linear& linear, long long most, Model& model) {
  Model::Sum sum;
  for (const auto& [x, weight] : linear.weight) {
    if (weight > 0) sum.terms.push_back({2 * x, small(weight)});
    if (weight < 0) sum.terms.push_back({2 * x + 1, small(-weight)});
  }
  sum.most = most - linear.constant;
  model.sums.push_back(std::move(sum));
}

int add_variable(int most, Model& model) {
  model.low.push_back(0);
  model.high.push_back(most);
  model.gate_of.push_back(-1);
  for (int half = 0; half < 2; ++half) {
    model.first_arc.push_back(model.arcs.count());
    model.bends_of.push_back({});
  }
  return model.starts++;
}

Linear linear_of(const Objective& objective, const Model& model) {
  Linear linear;
  for (const auto& term : objective.terms) linear.add(model, term.activity, term.weight);
  return linear;
}

void set_sum(const Objective& objective, Model& model) {
  Linear linear = linear_of(objective, model);
  long long least = linear.constant;
  long long most = linear.constant;
  for (const auto& [x, weight] : linear.weight) {
    least += weight * (weight > 0 ? model.low[x] : model.high[x]);
    most += weight * (weight > 0 ? model.high[x] : model.low[x]);
  }
  const int range = small(most - least);
  const int above = add_variable(range, model);
  linear.weight[above] = -1;
  add_sum(linear, least, model);  // the sum is at most `above` over the least one
  model.goal = above;
  model.goal_sign = 1;
  model.goal_offset = small(least);
}

void set_margin(const Objective& objective, Model& model) {
  const int widest = widest_margin(objective);
  const int lost = add_variable(std::max(widest, 0), model);  // margin = widest - lost
  for (const auto& window : objective.windows) {
    Linear late;
    late.add(model, window.to, 1);
    late.add(model, window.from, -1);
    Linear early;
    early.add(model, window.to, -1);
    early.add(model, window.from, 1);
    late.weight[lost] = -1;
    early.weight[lost] = -1;
    add_sum(late, static_cast<long long>(window.most) - widest, model);
    add_sum(early, -static_cast<long long>(window.least) - widest, model);
  }
  model.goal = lost;
  model.goal_sign = -1;
  model.goal_offset = widest;
}

}  // namespace

void keep_windows(Problem& problem, const Objective& objective, int margin) {
  for (const auto& window : objective.windows) {
    at_least(problem, window.from, window.to, window.least + margin);
    at_most(problem, window.from, window.to, window.most - margin);
  }
}

int widest_margin(const Objective& objective) {
  int widest = objective.windows.empty() ? 0 : static_cast<int>(largest_value);
  for (const auto& window : objective.windows) {
    const int width = window.most - window.least;
    widest = std::min(widest, width < 0 ? -1 : width / 2);
  }
  return widest;
}

void set_goal(const Objective& objective, Model& model) {
  switch (objective.kind) {
    case Objective::Kind::finish:
      break;  // as the model is built
    case Objective::Kind::sum:
      set_sum(objective, model);
      break;
    case Objective::Kind::margin:
      set_margin(objective, model);
      break;
  }
}

void add_chooser(Model& model) {
  constexpr int most_neighbourhoods = 1 << 20;
  model.chooser = add_variable(most_neighbourhoods, model);
}

void keep_sum(const Objective& objective, long long most, Model& model) {
  add_sum(linear_of(objective, model), most, model);
}

}  // namespace dampline::scheduling
