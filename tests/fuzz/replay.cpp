// Runs a fuzz target without a fuzzer: every seed as it is, cut at up to 64 places, and with 256
// bytes changed one at a time, always the same ones.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

namespace fs = std::filesystem;

void run(const std::string& text) {
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(text.data()), text.size());
}

void run_and_spoil(const std::string& seed) {
  run(seed);
  const std::size_t step = std::max<std::size_t>(1, seed.size() / 64);
  for (std::size_t cut = 0; cut < seed.size(); cut += step) run(seed.substr(0, cut));
  if (seed.empty()) return;
  static const std::string changes("\0\n\"[{=.-9\x80\xff", 11);
  std::uint64_t random = 1;  // a linear congruential sequence, so that every run is the same
  for (int i = 0; i < 256; ++i) {
    random = random * 6364136223846793005U + 1442695040888963407U;
    auto spoiled = seed;
    spoiled[(random >> 33U) % seed.size()] = changes[(random >> 20U) % changes.size()];
    run(spoiled);
  }
}

std::vector<fs::path> seeds_of(int count, char** names) {
  std::vector<fs::path> seeds;
  for (int i = 0; i < count; ++i) {
    if (!fs::is_directory(names[i])) {
      seeds.emplace_back(names[i]);
      continue;
    }
    for (const auto& entry : fs::directory_iterator(names[i])) seeds.push_back(entry.path());
  }
  std::sort(seeds.begin(), seeds.end());
  return seeds;
}

}  // namespace

int main(int argc, char** argv) {
  const auto seeds = seeds_of(argc - 1, argv + 1);
  if (seeds.empty()) {
    std::puts("no seeds");
    return 1;
  }
  for (const auto& path : seeds) {
    std::ifstream in(path, std::ios::binary);
    if (!in) {
      std::printf("cannot read %s\n", path.c_str());
      return 1;
    }
    std::printf("%s\n", path.c_str());
    run_and_spoil({std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()});
  }
  std::printf("%zu seeds\n", seeds.size());
  return 0;
}
