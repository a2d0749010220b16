# bash completion for coeval: eval "$(coeval completions bash)"
# The program itself is asked for ids, so completions always match the knowledge base at hand.
_coeval_list() { coeval list "$1" --addresses ${_coeval_kb:+--kb "$_coeval_kb"} 2>/dev/null; }
_coeval() {
  local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD-1]} command='' words='' position=0 i _coeval_kb=''
  for ((i = 1; i < COMP_CWORD; ++i)); do
    case ${COMP_WORDS[i]} in
      --kb) _coeval_kb=${COMP_WORDS[i+1]}; ((++i)) ;;
      --format|--basis|--slot|--for|--sheet|--shelf|--keep|--only|--on|--found|--of|--figure-colour|--mark|--to|--base-url|--reference|--since|--template|--port|--as|--graph|--top) ((++i)) ;;
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
    *) [[ $cur == -* ]] || case $command:$position in
         :*) words="check belongs outfit homes why agenda claims disputes marks dated identify key examine ask drift audit swap wants checklist ledger ceiling comparables shelf parcel convert publish preview export import list schema explain completions" ;;
         belongs:0|homes:0) words="$(_coeval_list run) $(_coeval_list mould) $(_coeval_list accessory)" ;;
         belongs:1|outfit:0) words=$(_coeval_list issue) ;;
         identify:0|key:0) words=$(_coeval_list accessory) ;;
         examine:0|ask:0) words=$(_coeval_list run) ;;
         why:0|agenda:0) words=$(for i in mould run issue period card route mark; do _coeval_list $i | sed 's/$/.start/;p;s/start$/end/'; done) ;;
         checklist:*) words=$(_coeval_list figure) ;;
         comparables:0) words=$(for i in issue figure run mould accessory; do _coeval_list $i; done) ;;
         claims:0) words=$(_coeval_list claim) ;;
         explain:0) words=$(coeval explain 2>/dev/null | cut -d' ' -f1) ;;
         list:0) words="line figure issue accessory mould run repro period card plant maker route mark feature source claim" ;;
         schema:0) words="kb shelf export check belongs outfit homes why list explain agenda claims disputes marks dated identify key examine ask drift audit swap wants checklist ledger ceiling comparables parcel convert" ;;
         marks:0) words="line origin safety address telephone price bar-code material packaging patent copyright" ;;
         parcel:1) words="offered bid won paid sent arrived" ;;
         convert:0|convert:1) compopt -o default 2>/dev/null; return ;;
         completions:0) words="bash zsh fish" ;;
         drift:*) words="HEAD HEAD~1 $(git for-each-ref --format='%(refname:short)' 2>/dev/null | grep -E '^[A-Za-z0-9._/-]+$')"; compopt -o dirnames 2>/dev/null ;;
         import:0) compopt -o default 2>/dev/null; return ;;
         check:0|publish:0|preview:0|export:0) compopt -o dirnames 2>/dev/null; return ;;
       esac ;;
  esac
  if [[ $cur == -* ]]; then
    words="--kb --format --basis --help --version"
    case $command in
      identify) words+=" --seen --mark --slot --ask --by-seller --figure-colour" ;;
      publish) words+=" --to --base-url --since --template" ;;
      export) words+=" --to --as --graph --base-url --replace" ;;
      import) words+=" --to" ;;
      preview) words+=" --port --template" ;;
      drift) words+=" --markdown" ;;
      key) words+=" --slot" ;;
      audit) words+=" --shelf --all --on" ;;
      shelf) words+=" --shelf --to --reference --on --template" ;;
      swap) words+=" --shelf --keep --only --with-parcels --apply" ;;
      wants) words+=" --shelf --all" ;;
      checklist) words+=" --shelf --slots" ;;
      agenda) words+=" --top" ;;
      disputes) words+=" --everything" ;;
      ledger) words+=" --shelf --every-amount" ;;
      ceiling|comparables) words+=" --shelf" ;;
      parcel) words+=" --shelf --on --found --of --examined" ;;
      convert) words+=" --replace" ;;
      dated) words+=" --mark" ;;
      examine) words+=" --seen --mark --for --sheet --by-seller --figure-colour" ;;
      ask) words+=" --seen --for --sheet --by-seller --figure-colour" ;;
    esac
  fi
  mapfile -t COMPREPLY < <(compgen -W "$words" -- "$cur")
}
complete -F _coeval coeval
