# Completion of panelart for fish.
function __panelart_complete
    set -l current (commandline -ct)
    set -l program (commandline -opc)[1]
    set -l before (string match -r -- '^--[^=]*=' "$current")
    set -l rest (string replace -r -- '^--[^=]*=' '' "$current")
    for line in (env _PANELART_COMPLETE=fish_complete COMP_WORDS=(commandline -cp | string collect) "COMP_CWORD=$current" $program 2>/dev/null)
        set -l told (string split \t -- $line)
        switch $told[1]
            case plain
                printf '%s\t%s\n' "$before$told[2]" "$told[3]"
            case dir
                for path in (__fish_complete_directories "$rest" '')
                    echo "$before$path"
                end
            case file
                set -l endings (string escape --style=regex -- (string split ' ' -- "$told[2]"))
                for path in (__fish_complete_path "$rest" | string replace -r '\t.*' '')
                    if string match -q -r -- '(/|'(string join '|' $endings)')$' $path
                        echo "$before$path"
                    end
                end
        end
    end
end

complete --no-files --command panelart --arguments '(__panelart_complete)'
