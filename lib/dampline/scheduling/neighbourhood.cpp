#include <algorithm>
#include <numeric>
#include <tuple>

#include <dampline/scheduling/neighbourhood.hpp>

namespace dampline::scheduling {
namespace {

/// Hands the units of one resource from task to task in order of time.
void link_resource(const Model& model, const Flat<int>& starts, const Flat<char>& is_free, int r,
                   Flat<Flat<Model::Arc>>& rows) {
  const auto begin = [&](int k) {
    const auto& task = model.tasks[k];
    return starts[task.start] + task.offset;
  };
  const auto end = [&](int k) { return model.end_of(model.tasks[k], begin(k)); };
  Flat<int> order;
  for (int k = model.first_task[r]; k < model.first_task[r + 1]; ++k) {
    if (is_free[model.tasks[k].start] == 0) order.push_back(k);
  }
  std::sort(order.begin(), order.end(), [&](int a, int b) {
    return std::tuple(begin(a), end(a), a) < std::tuple(begin(b), end(b), b);
  });
  Flat<int> holder;  // unit -> the task that held it last
  holder.fit(model.capacity[r], -1);
  for (const int k : order) {
    const auto& task = model.tasks[k];
    int wanted = task.amount;
    int linked = -1;
    for (int& unit : holder) {
      if (wanted == 0) break;
      if (unit >= 0 && end(unit) > begin(k)) continue;
      --wanted;
      const int before = unit;
      unit = k;
      if (before < 0 || before == linked || model.tasks[before].start == task.start) continue;
      linked = before;
      const auto& earlier = model.tasks[before];
      const int length = earlier.offset + earlier.duration - task.offset;
      rows[2 * earlier.start].push_back({2 * task.start, length});
      rows[2 * task.start + 1].push_back({2 * earlier.start + 1, length});
    }
  }
}

}  // namespace

Flat<Flat<Model::Arc>> order_of(const Model& model, const Flat<int>& starts,
                                const Flat<char>& is_free) {
  Flat<Flat<Model::Arc>> rows;
  rows.fit(2 * model.starts);
  for (int r = 0; r < model.capacity.count(); ++r) link_resource(model, starts, is_free, r, rows);
  return rows;
}

Flat<char> free_stretch(const Model& model, const Flat<int>& starts, int first, int many) {
  Flat<int> order;
  order.fit(model.decided);
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return starts[a] < starts[b]; });
  Flat<char> is_free;
  is_free.fit(model.starts, 0);
  for (int i = first; i < std::min(first + many, order.count()); ++i) is_free[order[i]] = 1;
  return is_free;
}

}  // namespace dampline::scheduling
