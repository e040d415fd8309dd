# Completion of panelart for bash 4 or later.
_panelart_complete() {
    local IFS=$'\n' kind value meaning ending current=$2
    [[ $current == '=' ]] && current=
    COMPREPLY=()
    while IFS=$'\t' read -r kind value meaning; do
        case $kind in
            plain)
                COMPREPLY+=("$value") ;;
            dir)
                compopt -o filenames
                COMPREPLY+=($(compgen -d -- "$current")) ;;
            file)
                compopt -o filenames
                if [[ -z $value ]]; then
                    COMPREPLY+=($(compgen -f -- "$current"))
                else
                    COMPREPLY+=($(compgen -d -- "$current"))
                    for ending in ${value// /$'\n'}; do
                        COMPREPLY+=($(compgen -f -X "!*$ending" -- "$current"))
                    done
                fi ;;
        esac
    done < <(COMP_WORDS="${COMP_WORDS[*]}" COMP_CWORD=$COMP_CWORD _PANELART_COMPLETE=bash_complete "$1" 2>/dev/null)
}

complete -o nosort -F _panelart_complete panelart 2>/dev/null || complete -F _panelart_complete panelart
