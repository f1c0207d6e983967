#include <algorithm>

#include "tables.hpp"

namespace dampline::cli {
namespace {

bool takes_file(const std::string& value_name) { return value_name == "FILE"; }

/// Text between single quotes of a shell.
std::string quoted(const std::string& text) {
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (const auto& word : words) out += (out.empty() ? "" : " ") + word;
  return out;
}

bool is_word_of_log(const Described& t) { return t.about.command.starts_with("log "); }

std::vector<std::string> names(const std::vector<Described>& tables, bool of_log) {
  std::vector<std::string> out;
  for (const auto& t : tables) {
    if (is_word_of_log(t) == of_log) out.push_back(t.about.command.substr(of_log ? 4 : 0));
  }
  if (!of_log) out.emplace_back("help");
  return out;
}

std::vector<std::string> spellings(const Options::Option& o) {
  std::vector<std::string> out{"--" + o.name};
  if (!o.letter.empty()) out.push_back("-" + o.letter);
  return out;
}

bool wants_file(const Described& t) {
  return std::any_of(t.operands.begin(), t.operands.end(),
                     [](const auto& o) { return takes_file(o.value_name); });
}

constexpr std::string_view bash_head =
    R"(# bash completion of dampline, made by: dampline completions bash
_dampline() {
  local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD - 1]} at=1
  local command=${COMP_WORDS[1]-} options= files=
  COMPREPLY=()
  if ((COMP_CWORD == 1)); then
    COMPREPLY=($(compgen -W "$commands --help --version" -- "$cur"))
    return
  fi
  if [[ $command == help ]]; then
    COMPREPLY=($(compgen -W "$commands" -- "$cur"))
    return
  fi
  if [[ $command == log ]]; then
    if ((COMP_CWORD == 2)); then
      COMPREPLY=($(compgen -W "$log_words --help" -- "$cur"))
      return
    fi
    command="log ${COMP_WORDS[2]}"
  fi
)";

constexpr std::string_view bash_foot = R"(  if [[ $cur == -* ]]; then
    COMPREPLY=($(compgen -W "$options" -- "$cur"))
  elif [[ -n $files ]]; then
    COMPREPLY=($(compgen -f -- "$cur"))
  fi
}
complete -o filenames -F _dampline dampline
)";

std::string bash_values(const Described& t) {
  std::string free, files, out;
  for (const auto& o : t.options) {
    if (o.value_name.empty()) continue;
    for (const auto& spelling : spellings(o)) {
      const std::string pattern = "\"" + t.about.command + " " + spelling + "\"";
      if (!o.words.empty()) {
        out += "    " + pattern + ")\n      COMPREPLY=($(compgen -W \"" + joined(o.words) +
               "\" -- \"$cur\"))\n      return\n      ;;\n";
      } else {
        auto& list = takes_file(o.value_name) ? files : free;
        list += (list.empty() ? "" : " | ") + pattern;
      }
    }
  }
  if (!files.empty()) {
    out +=
        "    " + files + ")\n      COMPREPLY=($(compgen -f -- \"$cur\"))\n      return\n      ;;\n";
  }
  if (!free.empty()) out += "    " + free + ")\n      return\n      ;;\n";
  return out;
}

/// Of zsh's _arguments: brackets and colons end a part of it.
std::string zsh_text(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '[' || c == ']' || c == ':' || c == '\\') out += '\\';
    out += c;
  }
  return out;
}

std::string zsh_arguments(const Described& t) {
  std::string out = "_arguments -s";
  for (const auto& o : t.options) {
    for (const auto& spelling : spellings(o)) {
      std::string spec = (o.repeats ? "*" : "") + spelling + "[" + zsh_text(o.help) + "]";
      if (!o.value_name.empty()) {
        spec += ":" + zsh_text(o.value_name) + ":";
        if (!o.words.empty()) {
          spec += "(" + joined(o.words) + ")";
        } else {
          spec += takes_file(o.value_name) ? "_files" : " ";
        }
      }
      out += " \\\n        " + quoted(spec);
    }
  }
  for (const auto& o : t.operands) {
    const std::string action = takes_file(o.value_name) ? "_files" : " ";
    out += " \\\n        " + quoted((o.many       ? "*:"
                                     : o.required ? ":"
                                                  : "::") +
                                    zsh_text(o.value_name) + ":" + action);
  }
  return out + "\n";
}

}  // namespace

std::string bash_completion(const std::vector<Described>& tables) {
  std::string out(bash_head);
  const std::string lists = "  local commands=\"" + joined(names(tables, false)) +
                            "\"\n  local log_words=\"" + joined(names(tables, true)) + "\"\n";
  out.insert(out.find("  COMPREPLY=()"), lists);
  out += "  case $command in\n";
  for (const auto& t : tables) {
    std::vector<std::string> options;
    for (const auto& o : t.options) {
      for (const auto& spelling : spellings(o)) options.push_back(spelling);
    }
    out += "    " + quoted(t.about.command) + ")\n      options=\"" + joined(options) + "\"\n";
    if (wants_file(t)) out += "      files=1\n";
    out += "      ;;\n";
  }
  out += "  esac\n  case \"$command $prev\" in\n";
  for (const auto& t : tables) out += bash_values(t);
  return out + "  esac\n" + std::string(bash_foot);
}

std::string zsh_completion(const std::vector<Described>& tables) {
  const auto list = [&](const char* name, bool of_log) {
    std::string out = "  local -a " + std::string(name) + "\n  " + name + "=(\n";
    for (const auto& t : tables) {
      if (is_word_of_log(t) != of_log) continue;
      out += "    " +
             quoted(zsh_text(t.about.command.substr(of_log ? 4 : 0)) + ":" +
                    zsh_text(t.about.purpose)) +
             "\n";
    }
    return out + (of_log ? "" : "    'help:what a command does'\n") + "  )\n";
  };
  const auto cases = [&](bool of_log, const char* indent) {
    std::string out;
    for (const auto& t : tables) {
      if (is_word_of_log(t) != of_log || t.about.command == "log") continue;
      out += std::string(indent) + t.about.command.substr(of_log ? 4 : 0) + ")\n        " +
             zsh_arguments(t) + "        ;;\n";
    }
    return out;
  };
  std::string out =
      "#compdef dampline\n# zsh completion of dampline, made by: dampline completions zsh\n"
      "_dampline() {\n";
  out += list("commands", false) + list("log_words", true);
  out +=
      "  if ((CURRENT == 2)); then\n    _describe command commands\n    return\n  fi\n"
      "  shift words\n  ((CURRENT--))\n"
      "  case $words[1] in\n"
      "    help)\n      _describe command commands\n      ;;\n"
      "    log)\n"
      "      if ((CURRENT == 2)); then\n        _describe 'what to log' log_words\n        return\n"
      "      fi\n      shift words\n      ((CURRENT--))\n      case $words[1] in\n";
  out += cases(true, "      ") + "      esac\n      ;;\n" + cases(false, "    ");
  return out + "  esac\n}\n_dampline \"$@\"\n";
}

std::string fish_completion(const std::vector<Described>& tables) {
  std::string out =
      "# fish completion of dampline, made by: dampline completions fish\n"
      "complete -c dampline -f\n"
      "complete -c dampline -n __fish_use_subcommand -l help -s h -d 'what it does'\n"
      "complete -c dampline -n __fish_use_subcommand -l version -d 'which version'\n"
      "complete -c dampline -n __fish_use_subcommand -a help -d 'what a command does'\n";
  const auto log_words = joined(names(tables, true));
  for (const auto& t : tables) {
    const bool of_log = is_word_of_log(t);
    const auto name = t.about.command.substr(of_log ? 4 : 0);
    const std::string parent =
        of_log ? "'__fish_seen_subcommand_from log; and not __fish_seen_subcommand_from " +
                     log_words + "'"
               : "__fish_use_subcommand";
    out += "complete -c dampline -n " + parent + " -a " + name + " -d " + quoted(t.about.purpose) +
           "\n";
    std::string inside = "__fish_seen_subcommand_from " + name;
    if (of_log) inside = "__fish_seen_subcommand_from log; and " + inside;
    // "compare" is a command and a word of log.
    if (!of_log && log_words.find(name) != std::string::npos && name != "log") {
      inside += "; and not __fish_seen_subcommand_from log";
    }
    const std::string head = "complete -c dampline -n " + quoted(inside);
    if (wants_file(t)) out += head + " -F\n";
    for (const auto& o : t.options) {
      out += head + " -l " + o.name;
      if (!o.letter.empty()) out += " -s " + o.letter;
      if (!o.value_name.empty()) out += takes_file(o.value_name) ? " -r -F" : " -x";
      if (!o.words.empty()) out += " -a " + quoted(joined(o.words));
      out += " -d " + quoted(o.help) + "\n";
    }
  }
  return out;
}

}  // namespace dampline::cli
