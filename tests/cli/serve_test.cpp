#include <csignal>
#include <sstream>
#include <string>

#include <arpa/inet.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include "cli/run_program.hpp"
#include "page_server.hpp"
#include "program.hpp"
#include "support/source_tree.hpp"
#include "terminal.hpp"

// `dampline serve` in a process of its own, asked over plain sockets: the requests share no code
// with the library that answers.

namespace dampline::tests {
namespace {

using testing::HasSubstr;
using testing::Not;

class Serving : public testing::Test {
 protected:
  void SetUp() override {
    int ends[2];
    ASSERT_EQ(::pipe(ends), 0);
    child_ = ::fork();
    ASSERT_GE(child_, 0);
    if (child_ == 0) {
      ::close(ends[0]);
      cli::DescriptorBuffer buffer(ends[1]);
      std::ostream out(&buffer);
      std::istringstream in;
      std::ostringstream err;
      const int status = cli::run(
          std::vector<std::string>{"serve", in_source_tree("data/sessions/heron-drypoint.toml"),
                                   "--port", "0", "--samples", "8"},
          {.in = in, .out = out, .err = err});
      out.flush();
      ::_exit(status);
    }
    ::close(ends[1]);
    char letter = 0;
    while (said_.find("Stop with") == std::string::npos && ::read(ends[0], &letter, 1) == 1) {
      said_ += letter;
    }
    ::close(ends[0]);
    const auto at = said_.find("http://127.0.0.1:");
    ASSERT_NE(at, std::string::npos) << said_;
    port_ = std::stoi(said_.substr(at + 17));
  }
  void TearDown() override {
    if (child_ > 0) (void)stopped(SIGKILL);
  }
  int stopped(int signal) {
    ::kill(child_, signal);
    int status = 0;
    ::waitpid(child_, &status, 0);
    child_ = 0;
    return status;
  }
  [[nodiscard]] std::string asked(const std::string& line, const std::string& host = "127.0.0.1",
                                  const std::string& rest = "") const {
    const int s = ::socket(AF_INET, SOCK_STREAM, 0);
    sockaddr_in to{};
    to.sin_family = AF_INET;
    to.sin_port = htons(static_cast<std::uint16_t>(port_));
    to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    EXPECT_EQ(::connect(s, reinterpret_cast<const sockaddr*>(&to), sizeof to), 0);
    const std::string text =
        line + " HTTP/1.1\r\nHost: " + host + "\r\nConnection: close\r\n" + rest + "\r\n";
    EXPECT_EQ(::send(s, text.data(), text.size(), MSG_NOSIGNAL), static_cast<ssize_t>(text.size()));
    std::string out;
    char bytes[4096];
    for (ssize_t n = 0; (n = ::recv(s, bytes, sizeof bytes, 0)) > 0;) {
      out.append(bytes, static_cast<std::size_t>(n));
    }
    ::close(s);
    return out;
  }

  pid_t child_ = 0;
  int port_ = 0;
  std::string said_;
};

TEST_F(Serving, showsTheSheetAndTheCalendar) {
  const auto page = asked("GET /");
  EXPECT_EQ(page.rfind("HTTP/1.1 200", 0), 0U) << page.substr(0, 200);
  EXPECT_THAT(page, HasSubstr("Content-Type: text/html; charset=utf-8"));
  EXPECT_THAT(page, HasSubstr("X-Content-Type-Options: nosniff"));
  EXPECT_THAT(page, HasSubstr("</html>"));
  const auto calendar = asked("GET /day.ics");
  EXPECT_THAT(calendar, HasSubstr("Content-Type: text/calendar"));
  EXPECT_THAT(calendar, HasSubstr("BEGIN:VCALENDAR\r\n"));
}

TEST_F(Serving, headHasNoBody) {
  const auto head = asked("HEAD /");
  EXPECT_EQ(head.rfind("HTTP/1.1 200", 0), 0U) << head;
  EXPECT_TRUE(head.ends_with("\r\n\r\n"));
  EXPECT_THAT(head, Not(HasSubstr("<html")));
}

TEST_F(Serving, everyOtherPathIs404AndNothingIsListed) {
  for (const char* path : {"/index.html", "/data/", "/../../../../etc/passwd", "//", "/day.ics/",
                           "/%2e%2e/%2e%2e/etc/passwd", "/favicon.ico"}) {
    const auto answer = asked(std::string("GET ") + path);
    EXPECT_TRUE(answer.rfind("HTTP/1.1 404", 0) == 0 || answer.rfind("HTTP/1.1 400", 0) == 0)
        << path << ": " << answer.substr(0, 100);
    EXPECT_THAT(answer, Not(HasSubstr("root:")));
  }
}

TEST_F(Serving, nothingCanBeSentBack) {
  for (const char* method : {"POST", "PUT", "DELETE", "PATCH", "OPTIONS"}) {
    const auto answer = asked(std::string(method) + " /", "127.0.0.1", "Content-Length: 0\r\n");
    EXPECT_EQ(answer.rfind("HTTP/1.1 405", 0), 0U) << method << answer.substr(0, 100);
    EXPECT_THAT(answer, HasSubstr("Allow: GET, HEAD"));
  }
}

TEST_F(Serving, anotherHostsNameIsRefused) {
  EXPECT_EQ(asked("GET /", "evil.example").rfind("HTTP/1.1 421", 0), 0U);
  EXPECT_EQ(asked("GET /", "localhost:" + std::to_string(port_)).rfind("HTTP/1.1 200", 0), 0U);
}

TEST_F(Serving, anInterruptEndsItCleanly) {
  EXPECT_THAT(asked("GET /"), HasSubstr("200"));
  const int status = stopped(SIGINT);
  EXPECT_TRUE(WIFEXITED(status));
  EXPECT_EQ(WEXITSTATUS(status), 0);
}

TEST(Serve, aPortThatIsTakenIsSaidSo) {
  cli::PageServer first({{"/", "text/plain", "x"}}, "127.0.0.1");
  const int port = first.bind(0);
  ASSERT_GT(port, 0);
  cli::PageServer second({{"/", "text/plain", "x"}}, "127.0.0.1");
  EXPECT_EQ(second.bind(port), 0);
  cli::PageServer nowhere({{"/", "text/plain", "x"}}, "203.0.113.1");  // of no computer
  EXPECT_EQ(nowhere.bind(0), 0);
}

TEST(Serve, loopbackIsTheDefaultAndIsKnown) {
  EXPECT_TRUE(cli::is_loopback("127.0.0.1"));
  EXPECT_FALSE(cli::is_loopback("0.0.0.0"));
  EXPECT_FALSE(cli::is_loopback("192.168.1.20"));
  const auto help = run_program({"serve", "--help"}).out;
  EXPECT_THAT(help, HasSubstr("127.0.0.1"));
}

}  // namespace
}  // namespace dampline::tests
