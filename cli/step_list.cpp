#include "step_list.hpp"

#include <sstream>

#include "exit_status.hpp"
#include "input_file.hpp"

namespace dampline::cli {

std::vector<ListedStep> read_step_list(const std::string& path, Streams& io) {
  std::vector<ListedStep> out;
  std::istringstream lines(read_input(path, io));
  std::string line;
  for (int number = 1; std::getline(lines, line); ++number) {
    std::istringstream words(line.substr(0, line.find('#')));
    std::vector<std::string> word;
    for (std::string w; words >> w;) word.push_back(w);
    if (word.empty()) continue;
    const std::string place = input_name(path) + ":" + std::to_string(number);
    if (word.size() > 3) {
      throw Failure(exit_status::bad_data, place + ": too many words for a step",
                    "a line is STEP START END, like ink-3-key 10:40 10:52");
    }
    word.resize(3);
    out.push_back({place, word[0], word[1], word[2]});
  }
  return out;
}

}  // namespace dampline::cli
