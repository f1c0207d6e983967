#include <cerrno>
#include <cstring>
#include <iostream>
#include <string>
#include <vector>

#include <unistd.h>

#include "program.hpp"
#include "terminal.hpp"

int main(int argc, char** argv) {
  using namespace dampline::cli;
  DescriptorBuffer out_buffer(STDOUT_FILENO);
  DescriptorBuffer err_buffer(STDERR_FILENO);
  std::ostream out(&out_buffer);
  std::ostream err(&err_buffer);
  err << std::unitbuf;
  const std::vector<std::string> words(argv + (argc > 0 ? 1 : 0), argv + argc);
  const int status = run(words, streams_of_process(std::cin, out, err));
  out.flush();
  const int error = out_buffer.error();
  // A reader that has seen enough (head) is no error of ours.
  if (error == 0 || error == EPIPE) return status;
  err << "dampline: cannot write the output: " << std::strerror(error) << '\n';
  return exit_status::io_failed;
}
