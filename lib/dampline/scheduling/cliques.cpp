#include <algorithm>
#include <map>
#include <numeric>
#include <tuple>

#include <dampline/scheduling/cliques.hpp>

namespace dampline::scheduling {
namespace {

constexpr int fewest_pieces = 3;
constexpr int most_pieces = 300;
constexpr long long most_looks = 1000000;  // of one piece at another: some milliseconds
// A clique with less work than this share of the longest path of lags hardly holds the finish.
constexpr double least_share = 0.8;
constexpr int never = -(1 << 28);

bool exclude(const Model& model, const Worked& a, const Worked& b) {
  if (a.piece.start == b.piece.start) {
    return a.piece.offset + a.piece.duration <= b.piece.offset ||
           b.piece.offset + b.piece.duration <= a.piece.offset;
  }
  int i = 0;
  int j = 0;
  while (i < a.resources.count() && j < b.resources.count()) {
    const int r = a.resources[i];
    if (r < b.resources[j]) {
      ++i;
    } else if (r > b.resources[j]) {
      ++j;
    } else if (a.tasks[i++].amount + b.tasks[j++].amount > model.capacity[r]) {
      return true;
    }
  }
  return false;
}

/// The longest paths of lags from a start.
Flat<int> distances(const Model& model, int from) {
  Flat<int> distance;
  distance.fit(model.starts, never);
  Flat<char> waits;
  waits.fit(model.starts, 0);
  Flat<int> queue{from};
  distance[from] = 0;
  for (int head = 0; head < queue.count(); ++head) {
    const int x = queue[head];
    waits[x] = 0;
    for (int i = model.first_arc[2 * x]; i < model.first_arc[2 * x + 1]; ++i) {
      const auto& arc = model.arcs[i];
      const int to = arc.to >> 1;
      if (distance[x] + arc.length <= distance[to]) continue;
      distance[to] = distance[x] + arc.length;
      if (waits[to] == 0) {
        waits[to] = 1;
        queue.push_back(to);
      }
    }
  }
  return distance;
}

/// Branch and bound by weight, heaviest first.
class Heaviest {
 public:
  Heaviest(const Model& model, const Flat<Worked>& work, bool by_lags) : work_(work) {
    const int n = work.count();
    excludes_.fit(n);
    for (auto& row : excludes_) row.fit(n, 0);
    for (int i = 0; i < n; ++i) {
      for (int j = 0; j < i; ++j) {
        if (exclude(model, work[i], work[j])) excludes_[i][j] = excludes_[j][i] = 1;
      }
    }
    if (by_lags) add_lags(model);
    Flat<int> all;
    all.fit(n);
    std::iota(all.begin(), all.end(), 0);
    std::stable_sort(all.begin(), all.end(), [&](int a, int b) { return weight(a) > weight(b); });
    extend(all, 0);
    std::sort(best.begin(), best.end());
  }

  Flat<int> best;

 private:
  [[nodiscard]] int weight(int i) const { return work_[i].piece.duration; }

  void add_lags(const Model& model) {
    Flat<int> distance;
    for (int i = 0; i < work_.count(); ++i) {
      const auto& piece = work_[i].piece;
      if (i == 0 || piece.start != work_[i - 1].piece.start) {
        distance = distances(model, piece.start);
      }
      for (int j = 0; j < work_.count(); ++j) {
        const auto& later = work_[j].piece;
        const int gap = distance[later.start] + later.offset - piece.offset - piece.duration;
        if (i != j && gap >= 0) excludes_[i][j] = excludes_[j][i] = 1;
      }
    }
  }

  void extend(const Flat<int>& open, int sum) {
    if (sum > best_sum_) {
      best_sum_ = sum;
      best = chosen_;
    }
    if (sum + limit(open) <= best_sum_) return;
    int left = 0;
    for (const int i : open) left += weight(i);
    for (int k = 0; k < open.count() && sum + left > best_sum_ && looks_ < most_looks; ++k) {
      const int i = open[k];
      left -= weight(i);
      Flat<int> next;
      for (int m = k + 1; m < open.count(); ++m) {
        if (excludes_[i][open[m]] != 0) next.push_back(open[m]);
      }
      looks_ += open.count() - k;
      chosen_.push_back(i);
      extend(next, sum + weight(i));
      chosen_.pop_back();
    }
  }

  /// No clique weighs more: of pieces that may all go on at once it has one.
  [[nodiscard]] int limit(const Flat<int>& open) {
    Flat<Flat<int>> together;
    int sum = 0;
    for (const int i : open) {
      const auto fits = [&](const Flat<int>& group) {
        looks_ += group.count();
        return std::none_of(group.begin(), group.end(),
                            [&](int j) { return excludes_[i][j] != 0; });
      };
      const auto group = std::find_if(together.begin(), together.end(), fits);
      if (group != together.end()) {
        group->push_back(i);
        continue;
      }
      together.push_back({i});
      sum += weight(i);  // the heaviest comes first
    }
    return sum;
  }

  const Flat<Worked>& work_;
  Flat<Flat<char>> excludes_;
  Flat<int> chosen_;
  int best_sum_ = 0;
  long long looks_ = 0;
};

bool is_part_of(const Flat<Model::Piece>& some, const Flat<Model::Piece>& all) {
  const auto before = [](const Model::Piece& a, const Model::Piece& b) {
    return std::tie(a.start, a.offset, a.duration) < std::tie(b.start, b.offset, b.duration);
  };
  return std::includes(all.begin(), all.end(), some.begin(), some.end(), before);
}

}  // namespace

Flat<Worked> work_of(const Model& model) {
  std::map<std::tuple<int, int, int>, Worked> all;
  for (int r = 0; r < model.capacity.count(); ++r) {
    for (int k = model.first_task[r]; k < model.first_task[r + 1]; ++k) {
      const auto& task = model.tasks[k];
      if (task.stretch >= 0) continue;
      auto& worked = all[{task.start, task.offset, task.duration}];
      worked.piece = {task.start, task.offset, task.duration};
      worked.tasks.push_back(task);
      worked.resources.push_back(r);
    }
  }
  Flat<Worked> work;
  for (auto& [key, worked] : all) work.push_back(std::move(worked));
  return work;
}

Flat<Model::Piece> heaviest_clique(const Model& model, const Flat<Worked>& work, bool by_lags) {
  Flat<Model::Piece> clique;
  for (const int i : Heaviest(model, work, by_lags).best) clique.push_back(work[i].piece);
  return clique;
}

void lay_cliques(Model& model) {
  const auto work = work_of(model);
  if (work.count() > most_pieces) return;
  const double least = least_share * (model.low[model.sink] + model.sink_offset);
  for (const bool by_lags : {false, true}) {
    auto clique = heaviest_clique(model, work, by_lags);
    const int sum =
        std::accumulate(clique.begin(), clique.end(), 0,
                        [](int s, const Model::Piece& piece) { return s + piece.duration; });
    if (clique.count() < fewest_pieces || sum < least) continue;
    if (!model.cliques.empty() && is_part_of(clique, model.cliques.back())) continue;
    if (!model.cliques.empty() && is_part_of(model.cliques.back(), clique)) {
      model.cliques.pop_back();
    }
    model.cliques.push_back(std::move(clique));
  }
}

}  // namespace dampline::scheduling
