# bash completion for coeval: eval "$(coeval completions bash)"
# The program itself is asked for ids, so completions always match the knowledge base at hand.
_coeval_list() { coeval list "$1" --addresses ${_coeval_kb:+--kb "$_coeval_kb"} 2>/dev/null; }
_coeval() {
  local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD-1]} command='' words='' position=0 i _coeval_kb=''
  for ((i = 1; i < COMP_CWORD; ++i)); do
    case ${COMP_WORDS[i]} in
      --kb) _coeval_kb=${COMP_WORDS[i+1]}; ((++i)) ;;
      --format|--basis|--slot|--for|--sheet|--shelf|--figure-colour|--mark|--to|--base-url|--template|--port|--as|--graph) ((++i)) ;;
      -*) ;;
      *) if [ -z "$command" ]; then command=${COMP_WORDS[i]}; else ((++position)); fi ;;
    esac
  done
  case $prev in
    --format) words="text json sarif" ;;
    --basis) words="documented observed reported conjectured" ;;
    --for) words=$(_coeval_list issue) ;;
    --seen) words=$(_coeval_list feature | sed 's/^feature.//;s/$/=/'); compopt -o nospace 2>/dev/null ;;
    --mark) words=$(_coeval_list mark | sed 's/^mark.//') ;;
    --sheet|--shelf) compopt -o default 2>/dev/null; return ;;
    --as) words="sqlite json csv graphml dot json-ld" ;;
    --graph) words="links chronology" ;;
    --to) [ "$command" = export ] && compopt -o default 2>/dev/null || compopt -o dirnames 2>/dev/null; return ;;
    --kb|--template) compopt -o dirnames 2>/dev/null; return ;;
    *) case $command:$position in
         :*) words="check belongs outfit homes why marks dated identify key examine ask ledger ceiling comparables publish preview export import list schema explain completions" ;;
         belongs:0|homes:0) words="$(_coeval_list run) $(_coeval_list mould) $(_coeval_list accessory)" ;;
         belongs:1|outfit:0) words=$(_coeval_list issue) ;;
         identify:0|key:0) words=$(_coeval_list accessory) ;;
         examine:0|ask:0) words=$(_coeval_list run) ;;
         why:0) words=$(for i in mould run issue period card route mark; do _coeval_list $i | sed 's/$/.start/;p;s/start$/end/'; done) ;;
         comparables:0) words=$(for i in issue figure run mould accessory; do _coeval_list $i; done) ;;
         explain:0) words=$(coeval explain 2>/dev/null | cut -d' ' -f1) ;;
         list:0) words="line figure issue accessory mould run repro period card plant maker route mark feature source claim" ;;
         schema:0) words="kb shelf export check belongs outfit homes why list explain marks dated identify key examine ask ledger ceiling comparables" ;;
         marks:0) words="line origin safety address telephone price bar-code material packaging patent copyright" ;;
         completions:0) words="bash zsh fish" ;;
         import:0) [[ $cur == -* ]] || { compopt -o default 2>/dev/null; return; } ;;
         check:0|publish:0|preview:0|export:0) [[ $cur == -* ]] || { compopt -o dirnames 2>/dev/null; return; } ;;
       esac ;;
  esac
  if [[ $cur == -* ]]; then
    words="--kb --format --basis --help --version"
    case $command in
      identify) words+=" --seen --mark --slot --ask --by-seller --figure-colour" ;;
      publish) words+=" --to --base-url --template" ;;
      export) words+=" --to --as --graph --base-url --replace" ;;
      import) words+=" --to" ;;
      preview) words+=" --port --template" ;;
      key) words+=" --slot" ;;
      ledger) words+=" --shelf --every-amount" ;;
      ceiling|comparables) words+=" --shelf" ;;
      dated) words+=" --mark" ;;
      examine) words+=" --seen --mark --for --sheet --by-seller --figure-colour" ;;
      ask) words+=" --seen --for --sheet --by-seller --figure-colour" ;;
    esac
  fi
  mapfile -t COMPREPLY < <(compgen -W "$words" -- "$cur")
}
complete -F _coeval coeval
