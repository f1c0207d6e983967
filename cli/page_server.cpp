#include "page_server.hpp"

#include <algorithm>
#include <csignal>
#include <thread>

#include <pthread.h>

// The one file that sees the HTTP library: compiling it takes long.
#include <httplib.h>

namespace dampline::cli {
namespace {

sigset_t stopping_signals() {
  sigset_t set;
  sigemptyset(&set);
  sigaddset(&set, SIGINT);
  sigaddset(&set, SIGTERM);
  sigaddset(&set, SIGUSR2);  // our own, when the server ended by itself
  return set;
}

void plain(httplib::Response& answer, int status, const std::string& words) {
  answer.status = status;
  answer.set_content(words + "\n", "text/plain; charset=utf-8");
}

/// "tablet.local:8017" without its port; "[::1]:8017" gives "::1".
std::string host_of(const std::string& header) {
  if (header.starts_with('[')) return header.substr(1, header.find(']') - 1);
  return header.substr(0, header.find(':'));
}

}  // namespace

bool is_loopback(const std::string& address) {
  return address.starts_with("127.") || address == "::1" || address == "localhost";
}

struct PageServer::Inside {
  std::vector<ServedPage> pages;
  std::string address;
  httplib::Server server;

  [[nodiscard]] bool is_our_name(const std::string& host) const {
    if (host == address) return true;
    if (is_loopback(address)) return is_loopback(host);
    // A name of the network may stand for this computer: only numbers cannot be turned round.
    return !host.empty() && host.find_first_not_of("0123456789.:abcdefABCDEF") == std::string::npos;
  }

  httplib::Server::HandlerResponse before(const httplib::Request& request,
                                          httplib::Response& answer) const {
    if (!is_our_name(host_of(request.get_header_value("Host")))) {
      plain(answer, 421, "This is not the host you asked for: use the address that was shown.");
      return httplib::Server::HandlerResponse::Handled;
    }
    if (request.method != "GET" && request.method != "HEAD") {
      answer.set_header("Allow", "GET, HEAD");
      plain(answer, 405, "Read-only: what was done is written down with dampline log.");
      return httplib::Server::HandlerResponse::Handled;
    }
    const auto page = std::find_if(pages.begin(), pages.end(),
                                   [&](const auto& p) { return p.path == request.path; });
    if (page == pages.end()) {
      plain(answer, 404, "Nothing here.");
    } else {
      answer.status = 200;
      answer.set_content(page->body, page->type);
    }
    return httplib::Server::HandlerResponse::Handled;
  }
};

PageServer::PageServer(std::vector<ServedPage> pages, std::string address)
    : inside_(std::make_unique<Inside>()) {
  inside_->pages = std::move(pages);
  inside_->address = std::move(address);
  auto& server = inside_->server;
  server.set_default_headers({{"Cache-Control", "no-store"},
                              {"Referrer-Policy", "no-referrer"},
                              {"X-Content-Type-Options", "nosniff"}});
  constexpr std::size_t largest_request = 1024;
  server.set_payload_max_length(largest_request);
  server.set_read_timeout(5);
  server.set_write_timeout(10);
  server.set_keep_alive_max_count(20);
  server.set_keep_alive_timeout(2);
  // The library's own options would let a second server take the same port unseen.
  server.set_socket_options([](socket_t socket) {
    const int yes = 1;
    ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
  });
  server.set_pre_routing_handler(
      [this](const httplib::Request& request, httplib::Response& answer) {
        return inside_->before(request, answer);
      });
}

PageServer::~PageServer() = default;

int PageServer::bind(int port) {
  auto& server = inside_->server;
  if (port == 0) return std::max(0, server.bind_to_any_port(inside_->address));
  return server.bind_to_port(inside_->address, port) ? port : 0;
}

bool PageServer::run(const std::function<void()>& ready) {
  // Every thread started from here on leaves the signals to the one that waits for them.
  const sigset_t waited = stopping_signals();
  sigset_t before;
  ::pthread_sigmask(SIG_BLOCK, &waited, &before);
  std::thread waiting([&] {
    int signal = 0;
    ::sigwait(&waited, &signal);
    inside_->server.stop();
  });
  ready();
  const bool whole = inside_->server.listen_after_bind();
  ::pthread_kill(waiting.native_handle(), SIGUSR2);
  waiting.join();
  ::pthread_sigmask(SIG_SETMASK, &before, nullptr);
  return whole;
}

void PageServer::stop() { inside_->server.stop(); }

}  // namespace dampline::cli
