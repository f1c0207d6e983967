#pragma once

#include <dampline/scheduling/model.hpp>

namespace dampline::scheduling {

/// Work and what it holds, of all resources together.
struct Worked {
  Model::Piece piece;
  Flat<Model::Task> tasks;
  Flat<int> resources;  ///< of each task, ascending
};

/// All work of constant use that never stands still.
[[nodiscard]] Flat<Worked> work_of(const Model& model);

/// The heaviest set of pieces of which no two can go on at once, as far as a bounded search finds
/// it: because they ask for more than there is or, `by_lags`, because lags keep them apart.
[[nodiscard]] Flat<Model::Piece> heaviest_clique(const Model& model, const Flat<Worked>& work,
                                                 bool by_lags);

/// Adds to a model what goes on one at a time, where that may be what holds the finish.
void lay_cliques(Model& model);

}  // namespace dampline::scheduling
