#include "commands/command.hpp"

namespace coeval {
namespace {

// The shells ask the program itself for ids, so completions always match the knowledge base at hand.
constexpr std::string_view bash = R"shell(# bash completion for coeval: eval "$(coeval completions bash)" _coeval() {
  local cur = ${COMP_WORDS[COMP_CWORD]} prev = ${COMP_WORDS[COMP_CWORD - 1]} command = kb = words = i position =
      0 for ((i = 1; i < COMP_CWORD; ++i));
  do
    case ${COMP_WORDS[i]} in
      --kb) kb=${COMP_WORDS[i+1]}; ((++i)) ;;
      --format|--basis) ((++i)) ;;
      -*) ;;
      *) if [ -z "$command" ]; then command=${COMP_WORDS[i]}; else ((++position)); fi ;;
    esac
  done
  _coeval_list() { coeval list "$1" --addresses ${kb:
      +--kb "$kb"
}
2 > / dev / null;
} // namespace
  case $prev in
    --format) words="text json sarif" ;;
    --basis) words="documented observed reported conjectured" ;;
    --kb) compopt -o dirnames 2>/dev/null; return ;;
    *) case $command:$position in
         :*) words="check belongs outfit homes why list schema explain completions" ;
  ;
         belongs:0|homes:0) words="$(_coeval_list run) $(_coeval_list mould) $(_coeval_list accessory)" ;
         ;
         belongs:1|outfit:0) words=$(_coeval_list issue) ;
         ;
         why:0) words=$(for kind in mould run issue period card route mark; do _coeval_list $kind | sed 's/$/.start/;p;s/start$/end/'; done) ;
         ;
         explain:0) words=$(coeval explain 2>/dev/null | cut -d' ' -f1) ;
         ;
         list:0) words="line figure issue accessory mould run repro period card plant maker route mark feature source claim" ;
         ;
         schema:0) words="kb check belongs outfit homes why list" ;
         ;
         completions:0) words="bash zsh fish" ;
         ;
         check:0) compopt -o dirnames 2>/dev/null;
         return;
         ;
         esac;
         ;
         esac [[$cur == -*]]&& words = "--kb --format --basis --help --version" COMPREPLY =
             ($(compgen - W "$words" --"$cur"))
         } // namespace coeval
complete -F _coeval coeval
)shell";

constexpr std::string_view zsh = R"shell(#compdef coeval
# zsh completion for coeval: eval "$(coeval completions zsh)"
_coeval() {
  local - a kb found local command = position = 0 i for ((i = 2; i < CURRENT; ++i));
  do
    case ${words[i]} in
      --kb) kb=(--kb ${words[i+1]}); ((++i)) ;;
      --format|--basis) ((++i)) ;;
      -*) ;;
      *) if [[ -z $command ]]; then command=${words[i]}; else ((++position)); fi ;;
    esac
  done
  case ${words[CURRENT-1]} in
    --format) compadd text json sarif; return ;;
    --basis) compadd documented observed reported conjectured; return ;;
    --kb) _files -/; return ;;
  esac
  if [[ ${words[CURRENT]} == -* ]]; then compadd -- --kb --format --basis --help --version; return; fi
  case $command:$position in
    :*) found=(check belongs outfit homes why list schema explain completions) ;
    ;
belongs:0|homes:0) found=(${(f)"$(for kind in run mould accessory; do coeval list $kind --addresses $kb 2>/dev/null; done)"}) ;
  ;
belongs:1|outfit:0) found=(${(f)"$(coeval list issue --addresses $kb 2>/dev/null)"}) ;
  ;
why:0) found=(${(f)"$(for kind in mould run issue period card route mark; do coeval list $kind --addresses $kb 2>/dev/null | sed 's/$/.start/;p;s/start$/end/'; done)"}) ;
  ;
explain:0) found=(${(f)"$(coeval explain 2>/dev/null | cut -d' ' -f1)"}) ;
  ;
list:0) found=(line figure issue accessory mould run repro period card plant maker route mark feature source claim) ;
  ;
schema:0) found=(kb check belongs outfit homes why list) ;
  ;
completions:0) found=(bash zsh fish) ;
  ;
check:0) _files -/;
  return;
  ;
  esac compadd - a found
}
if
  [[$zsh_eval_context [-1] == loadautofunc]];
then _coeval "$@";
else compdef _coeval coeval; fi
)shell";

constexpr std::string_view fish = R"shell(# fish completion for coeval: coeval completions fish | source
function __coeval_words --description 'words before the cursor that are no options'
    set -l skip 0
    for word in (commandline -opc)[2..-1]
        if test $skip = 1
            set skip 0
        else if contains -- $word --kb --format --basis
            set skip 1
        else if not string match -q -- '-*' $word
            echo $word
        end
    end
end
function __coeval_at
    set -l words (__coeval_words)
    test (count $words) = (math $argv[2] + 1); and test "$words[1]" = $argv[1]
end
function __coeval_list
    set -l kb
    set -l line (commandline -opc)
    if set -l at (contains -i -- --kb $line)
        set kb --kb $line[(math $at + 1)]
    end
    for kind in $argv
        coeval list $kind --addresses $kb 2>/dev/null
    end
end
complete -c coeval -f
complete -c coeval -l kb -x -a '(__fish_complete_directories)'
complete -c coeval -l format -x -a 'text json sarif'
complete -c coeval -l basis -x -a 'documented observed reported conjectured'
complete -c coeval -n 'test (count (__coeval_words)) = 0' -a 'check belongs outfit homes why list schema explain completions'
complete -c coeval -n '__coeval_at belongs 0; or __coeval_at homes 0' -a '(__coeval_list run mould accessory)'
complete -c coeval -n '__coeval_at belongs 1; or __coeval_at outfit 0' -a '(__coeval_list issue)'
complete -c coeval -n '__coeval_at why 0' -a "(__coeval_list mould run issue period card route mark | sed 's/\$/.start/;p;s/start\$/end/')"
complete -c coeval -n '__coeval_at explain 0' -a "(coeval explain 2>/dev/null | cut -d' ' -f1)"
complete -c coeval -n '__coeval_at list 0' -a 'line figure issue accessory mould run repro period card plant maker route mark feature source claim'
complete -c coeval -n '__coeval_at schema 0' -a 'kb check belongs outfit homes why list'
complete -c coeval -n '__coeval_at completions 0' -a 'bash zsh fish'
complete -c coeval -n '__coeval_at check 0' -a '(__fish_complete_directories)'
)shell";

} // namespace

int run_completions(const std::string& shell) {
  print(shell == "bash" ? bash : shell == "zsh" ? zsh : fish);
  return exit_yes;
}

} // namespace coeval
