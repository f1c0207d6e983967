#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace dampline::cli {

/// What stands at a path.
struct ServedPage {
  std::string path;  ///< "/"
  std::string type;  ///< "text/html; charset=utf-8"
  std::string body;
};

/// Shows pages on the local network, read-only: GET and HEAD of the paths it was given, 404 for
/// every other, 405 for every other method. No files, no listing, nothing is stored. A request that
/// names another host is refused, so that no web page elsewhere can read it through a browser.
class PageServer {
 public:
  PageServer(std::vector<ServedPage> pages, std::string address);
  ~PageServer();
  PageServer(const PageServer&) = delete;
  PageServer& operator=(const PageServer&) = delete;

  /// The port it has, 0 asking for any that is free; 0 when there is none.
  [[nodiscard]] int bind(int port);
  /// Until stop() or a signal to interrupt or terminate. False when listening broke off.
  /// `ready` is called once requests are taken.
  [[nodiscard]] bool run(const std::function<void()>& ready);
  void stop();

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

/// 127.0.0.0/8 and ::1: nobody else can reach it.
[[nodiscard]] bool is_loopback(const std::string& address);

}  // namespace dampline::cli
