#pragma once

#include <streambuf>
#include <vector>

#include "command.hpp"

/// Where the program meets the system: file descriptors as streams that remember what went wrong,
/// and what the terminal and the environment say about layout.
namespace dampline::cli {

/// An output buffer over a file descriptor that keeps the errno of the first failed write.
class DescriptorBuffer : public std::streambuf {
 public:
  explicit DescriptorBuffer(int descriptor);
  ~DescriptorBuffer() override;
  DescriptorBuffer(const DescriptorBuffer&) = delete;
  DescriptorBuffer& operator=(const DescriptorBuffer&) = delete;
  [[nodiscard]] int error() const { return error_; }  ///< errno, 0 when all went well

 protected:
  int_type overflow(int_type c) override;
  int sync() override;

 private:
  int descriptor_;
  int error_ = 0;
  std::vector<char> buffer_;
};

/// Streams over the given three, laid out as COLUMNS, the terminal, NO_COLOR, TERM and the locale
/// say. Order for colour: NO_COLOR non-empty, then TERM=dumb, then whether it is a terminal.
[[nodiscard]] Streams streams_of_process(std::istream& in, std::ostream& out, std::ostream& err);

}  // namespace dampline::cli
