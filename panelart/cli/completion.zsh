#compdef panelart
# Completion of panelart for zsh.
_panelart_complete() {
    local kind value meaning
    local -a plain described
    [[ $PREFIX == --*=* ]] && compset -P '*='
    while IFS=$'\t' read -r kind value meaning; do
        case $kind in
            plain)
                if [[ -n $meaning ]]; then
                    described+=("${value//:/\\:}:$meaning")
                else
                    plain+=("$value")
                fi ;;
            dir)
                _files -/ ;;
            file)
                if [[ -z $value ]]; then
                    _files
                else
                    _files -g "*${value// / *}"
                fi ;;
        esac
    done < <(COMP_WORDS="${words[*]}" COMP_CWORD=$((CURRENT - 1)) _PANELART_COMPLETE=zsh_complete "${words[1]}" 2>/dev/null)
    (( $#described )) && _describe -V unsorted described
    (( $#plain )) && compadd -V unsorted -a plain
}

if [[ $zsh_eval_context[-1] == loadautofunc ]]; then
    _panelart_complete "$@"
else
    compdef _panelart_complete panelart
fi
