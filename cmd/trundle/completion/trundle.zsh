{{- define "zsh-values" -}}
{{if eq .Kind "folder"}}_files -/{{else if eq .Kind "file"}}_files{{if .Suffix}} -g "*{{.Suffix}}"{{end}}{{else if eq .Kind "words"}}({{.List}}){{else}} {{end}}
{{- end -}}
#compdef trundle
# Completion of trundle in zsh. Put this line into your .zshrc, below compinit:
#   eval "$(trundle completion zsh)"

_trundle() {
  local -a commands
  commands=(
{{- range .Commands}}
    '{{.Name}}:{{zsh .Help}}'
{{- end}}
  )
  if (( CURRENT == 2 )); then
    if [[ $words[2] == -* ]]; then
      _arguments{{range .Flags}} '{{if .Short}}-{{.Short}}{{else}}--{{.Long}}{{end}}[{{zsh .Help}}]'{{if .Short}} '--{{.Long}}[{{zsh .Help}}]'{{end}}{{end}}
    else
      _describe -t commands command commands
    fi
    return
  fi
  local command=$words[2]
  shift words
  (( CURRENT-- ))
  case $command in
{{- range .Commands}}
    {{.Name}})
      _arguments -s \
{{- range .Flags}}{{$value := .Value}}{{$help := .Help}}
{{- if .Short}}
        '-{{.Short}}[{{zsh $help}}]{{if $value.Takes}}:value:{{template "zsh-values" $value}}{{end}}' \
{{- end}}
        '--{{.Long}}{{if $value.Takes}}={{end}}[{{zsh $help}}]{{if $value.Takes}}:value:{{template "zsh-values" $value}}{{end}}' \
{{- end}}
        '*:value:{{template "zsh-values" .Argument}}'
      ;;
{{- end}}
  esac
}

if [[ ${funcstack[1]} == _trundle ]]; then
  _trundle "$@"
else
  compdef _trundle trundle
fi
