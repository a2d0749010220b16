#compdef coeval
# zsh completion for coeval: eval "$(coeval completions zsh)"
_coeval() {
  local -a kb found
  local command= position=0 i
  for ((i = 2; i < CURRENT; ++i)); do
    case ${words[i]} in
      --kb) kb=(--kb ${words[i+1]}); ((++i)) ;;
      --format|--basis|--slot|--for|--sheet|--shelf|--keep|--only|--on|--found|--of|--figure-colour|--mark|--to|--base-url|--reference|--since|--template|--port|--as|--graph|--top) ((++i)) ;;
      -*) ;;
      *) if [[ -z $command ]]; then command=${words[i]}; else ((++position)); fi ;;
    esac
  done
  case ${words[CURRENT-1]} in
    --format) compadd text json sarif; return ;;
    --basis) compadd documented observed reported conjectured; return ;;
    --for) compadd -- ${(f)"$(coeval list issue --addresses $kb 2>/dev/null)"}; return ;;
    --seen) compadd -S '' -- ${(f)"$(coeval list feature --addresses $kb 2>/dev/null | sed 's/^feature.//;s/$/=/')"}; return ;;
    --mark) compadd -- ${(f)"$(coeval list mark --addresses $kb 2>/dev/null | sed 's/^mark.//')"}; return ;;
    --sheet|--shelf) _files; return ;;
    --as) compadd sqlite json csv graphml dot json-ld; return ;;
    --graph) compadd links chronology; return ;;
    --to) if [[ $command == export ]]; then _files; else _files -/; fi; return ;;
    --kb|--template) _files -/; return ;;
  esac
  if [[ ${words[CURRENT]} == -* ]]; then
    compadd -- --kb --format --basis --help --version
    case $command in
      identify) compadd -- --seen --mark --slot --ask --by-seller --figure-colour ;;
      publish) compadd -- --to --base-url --since --template ;;
      export) compadd -- --to --as --graph --base-url --replace ;;
      import) compadd -- --to ;;
      preview) compadd -- --port --template ;;
      drift) compadd -- --markdown ;;
      key) compadd -- --slot ;;
      audit) compadd -- --shelf --all --on ;;
      shelf) compadd -- --shelf --to --reference --on --template ;;
      agenda) compadd -- --top ;;
      disputes) compadd -- --everything ;;
      swap) compadd -- --shelf --keep --only --with-parcels --apply ;;
      wants) compadd -- --shelf --all ;;
      checklist) compadd -- --shelf --slots ;;
      ledger) compadd -- --shelf --every-amount ;;
      ceiling|comparables) compadd -- --shelf ;;
      parcel) compadd -- --shelf --on --found --of --examined ;;
      convert) compadd -- --replace ;;
      dated) compadd -- --mark ;;
      examine) compadd -- --seen --mark --for --sheet --by-seller --figure-colour ;;
      ask) compadd -- --seen --for --sheet --by-seller --figure-colour ;;
    esac
    return
  fi
  case $command:$position in
    :*) found=(check belongs outfit homes why agenda claims disputes marks dated identify key examine ask drift audit swap wants checklist ledger ceiling comparables shelf parcel convert publish preview export import list schema explain completions) ;;
    belongs:0|homes:0) found=(${(f)"$(for i in run mould accessory; do coeval list $i --addresses $kb 2>/dev/null; done)"}) ;;
    belongs:1|outfit:0) found=(${(f)"$(coeval list issue --addresses $kb 2>/dev/null)"}) ;;
    identify:0|key:0) found=(${(f)"$(coeval list accessory --addresses $kb 2>/dev/null)"}) ;;
    examine:0|ask:0) found=(${(f)"$(coeval list run --addresses $kb 2>/dev/null)"}) ;;
    why:0|agenda:0) found=(${(f)"$(for i in mould run issue period card route mark; do coeval list $i --addresses $kb 2>/dev/null | sed 's/$/.start/;p;s/start$/end/'; done)"}) ;;
    checklist:*) found=(${(f)"$(coeval list figure --addresses $kb 2>/dev/null)"}) ;;
    comparables:0) found=(${(f)"$(for i in issue figure run mould accessory; do coeval list $i --addresses $kb 2>/dev/null; done)"}) ;;
    claims:0) found=(${(f)"$(coeval list claim --addresses $kb 2>/dev/null)"}) ;;
    explain:0) found=(${(f)"$(coeval explain 2>/dev/null | cut -d' ' -f1)"}) ;;
    list:0) found=(line figure issue accessory mould run repro period card plant maker route mark feature source claim) ;;
    schema:0) found=(kb shelf export check belongs outfit homes why list explain agenda claims disputes marks dated identify key examine ask drift audit swap wants checklist ledger ceiling comparables parcel convert) ;;
    marks:0) found=(line origin safety address telephone price bar-code material packaging patent copyright) ;;
    parcel:1) found=(offered bid won paid sent arrived) ;;
    convert:0|convert:1) _files; return ;;
    completions:0) found=(bash zsh fish) ;;
    drift:*) found=(HEAD HEAD~1 ${(f)"$(git for-each-ref --format='%(refname:short)' 2>/dev/null)"}); _files -/ ;;
    import:0) _files; return ;;
    check:0|publish:0|preview:0|export:0) _files -/; return ;;
  esac
  compadd -a found
}
if [[ $zsh_eval_context[-1] == loadautofunc ]]; then _coeval "$@"; else compdef _coeval coeval; fi
