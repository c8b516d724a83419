#include "cli/command.h"
#include "cli/command_description.h"
#include "cli/completion.h"
#include "words/findings.h"
#include "words/translation.h"

namespace versolay::cli {

Command add_completion(CLI::App& root) {
  auto shell_name = make_options<std::string>();
  CLI::App* parser = root.add_subcommand(
      "completion", tr("Print the script that lets a shell complete the commands"));
  parser->add_option("shell", *shell_name, tr("bash, zsh or fish"))
      ->type_name("bash|zsh|fish")
      ->required();
  parser->footer(tr(
      "Example: versolay completion bash > ~/.local/share/bash-completion/completions/versolay"));
  return {parser, [shell_name, &root](const CommonOptions&) -> Result<Outcome> {
            const auto shell = shell_from(*shell_name);
            if (!shell) throw Error(*shell_name, findings::unknown_shell());
            Outcome outcome;
            std::string script = completion_script(describe(root), *shell);
            script.pop_back();  // the caller ends the line
            outcome.document = {{"shell", *shell_name}, {"script", script}};
            outcome.text = std::move(script);
            outcome.verbatim = true;
            return outcome;
          }};
}

}  // namespace versolay::cli
