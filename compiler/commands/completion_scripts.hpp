// commands/completion_scripts.hpp: what does a shell need to complete commands and ids? The texts are the files in
// completions/.
#pragma once

#include <string_view>

namespace coeval {

extern const std::string_view bash_completions;
extern const std::string_view zsh_completions;
extern const std::string_view fish_completions;

} // namespace coeval
