# fish completion for coeval: coeval completions fish | source
function __coeval_words --description 'words before the cursor that are no options'
    set -l skip 0
    for word in (commandline -opc)[2..-1]
        if test $skip = 1
            set skip 0
        else if contains -- $word --kb --format --basis --slot --for --sheet --shelf --keep --only --on --found --of --figure-colour --mark --to --base-url --reference --since --template --port --as --graph --top
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
complete -c coeval -n 'test (count (__coeval_words)) = 0' -a 'check belongs outfit homes why agenda claims disputes marks dated identify key examine ask drift audit swap wants checklist ledger ceiling comparables shelf parcel convert publish preview export import list schema explain completions'
complete -c coeval -n '__coeval_at belongs 0; or __coeval_at homes 0' -a '(__coeval_list run mould accessory)'
complete -c coeval -n '__coeval_at belongs 1; or __coeval_at outfit 0' -a '(__coeval_list issue)'
complete -c coeval -n '__coeval_at identify 0; or __coeval_at key 0' -a '(__coeval_list accessory)'
complete -c coeval -n '__coeval_at examine 0; or __coeval_at ask 0' -a '(__coeval_list run)'
set -l looking '__fish_seen_subcommand_from identify examine ask'
complete -c coeval -n $looking -l seen -x -a "(__coeval_list feature | sed 's/^feature.//;s/\$/=/')"
complete -c coeval -n $looking -l by-seller
complete -c coeval -n '__fish_seen_subcommand_from dated identify examine' -l mark -x -a "(__coeval_list mark | sed 's/^mark.//')"
complete -c coeval -n '__coeval_at marks 0' -a 'line origin safety address telephone price bar-code material packaging patent copyright'
complete -c coeval -n $looking -l figure-colour -x
complete -c coeval -n '__fish_seen_subcommand_from identify key' -l slot -x
complete -c coeval -n '__fish_seen_subcommand_from identify' -l ask
complete -c coeval -n '__fish_seen_subcommand_from examine ask' -l for -x -a '(__coeval_list issue)'
complete -c coeval -n '__fish_seen_subcommand_from examine ask' -l sheet -r
complete -c coeval -n '__fish_seen_subcommand_from audit swap wants checklist ledger ceiling comparables shelf parcel' -l shelf -r
complete -c coeval -n '__fish_seen_subcommand_from audit wants' -l all
complete -c coeval -n '__fish_seen_subcommand_from audit shelf parcel' -l on -x
complete -c coeval -n '__fish_seen_subcommand_from swap' -l keep -x
complete -c coeval -n '__fish_seen_subcommand_from swap' -l only -x
complete -c coeval -n '__fish_seen_subcommand_from swap' -l with-parcels
complete -c coeval -n '__fish_seen_subcommand_from swap' -l apply
complete -c coeval -n '__coeval_at parcel 1' -a 'offered bid won paid sent arrived'
complete -c coeval -n '__fish_seen_subcommand_from parcel' -l found -x
complete -c coeval -n '__fish_seen_subcommand_from parcel' -l of -x
complete -c coeval -n '__fish_seen_subcommand_from parcel' -l examined
complete -c coeval -n '__coeval_at convert 0; or __coeval_at convert 1' -F
complete -c coeval -n '__fish_seen_subcommand_from checklist' -l slots
complete -c coeval -n '__fish_seen_subcommand_from checklist' -a '(__coeval_list figure)'
complete -c coeval -n '__fish_seen_subcommand_from ledger' -l every-amount
complete -c coeval -n '__coeval_at comparables 0' -a '(__coeval_list issue figure run mould accessory)'
complete -c coeval -n '__fish_seen_subcommand_from export' -l to -r -F
complete -c coeval -n '__fish_seen_subcommand_from export' -l as -x -a 'sqlite json csv graphml dot json-ld'
complete -c coeval -n '__fish_seen_subcommand_from export' -l graph -x -a 'links chronology'
complete -c coeval -n '__fish_seen_subcommand_from export convert' -l replace
complete -c coeval -n '__fish_seen_subcommand_from publish import shelf' -l to -x -a '(__fish_complete_directories)'
complete -c coeval -n '__fish_seen_subcommand_from publish export' -l base-url -x
complete -c coeval -n '__fish_seen_subcommand_from publish' -l since -x -a "HEAD~1 (git for-each-ref --format='%(refname:short)' 2>/dev/null) (__fish_complete_directories)"
complete -c coeval -n '__fish_seen_subcommand_from publish preview shelf' -l template -x -a '(__fish_complete_directories)'
complete -c coeval -n '__fish_seen_subcommand_from preview' -l port -x
complete -c coeval -n '__coeval_at why 0; or __coeval_at agenda 0' -a "(__coeval_list mould run issue period card route mark | sed 's/\$/.start/;p;s/start\$/end/')"
complete -c coeval -n '__coeval_at claims 0' -a '(__coeval_list claim)'
complete -c coeval -n '__fish_seen_subcommand_from agenda' -l top -x
complete -c coeval -n '__fish_seen_subcommand_from disputes' -l everything
complete -c coeval -n '__coeval_at explain 0' -a "(coeval explain 2>/dev/null | cut -d' ' -f1)"
complete -c coeval -n '__coeval_at list 0' -a 'line figure issue accessory mould run repro period card plant maker route mark feature source claim'
complete -c coeval -n '__coeval_at schema 0' -a 'kb shelf export check belongs outfit homes why list explain agenda claims disputes marks dated identify key examine ask drift audit swap wants checklist ledger ceiling comparables parcel convert'
complete -c coeval -n '__coeval_at completions 0' -a 'bash zsh fish'
complete -c coeval -n '__fish_seen_subcommand_from drift' -a "HEAD HEAD~1 (git for-each-ref --format='%(refname:short)' 2>/dev/null) (__fish_complete_directories)"
complete -c coeval -n '__fish_seen_subcommand_from shelf' -l reference -x
complete -c coeval -n '__fish_seen_subcommand_from drift' -l markdown
complete -c coeval -n '__coeval_at import 0' -F
complete -c coeval -n '__coeval_at export 0; or __coeval_at check 0; or __coeval_at publish 0; or __coeval_at preview 0' -a '(__fish_complete_directories)'
