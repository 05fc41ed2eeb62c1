{{- define "bash-values" -}}
{{if eq .Kind "folder"}}_trundle_folders{{else if eq .Kind "file"}}_trundle_files '{{.Suffix}}'{{else if eq .Kind "words"}}_trundle_words '{{.List}}'{{else}}:{{end}}
{{- end -}}
# Completion of trundle in bash. Put this line into your .bashrc:
#   eval "$(trundle completion bash)"

_trundle_words() {
  local one IFS=' '
  for one in $1; do
    if [[ $one == "$word"* ]]; then COMPREPLY+=("$one"); fi
  done
}

_trundle_folders() {
  local one
  compopt -o filenames 2>/dev/null || : # older ones have none
  while IFS= read -r one; do COMPREPLY+=("$one"); done < <(compgen -d -- "$word")
}

# Files that end as told, and the folders on the way to them.
_trundle_files() {
  local one
  compopt -o filenames 2>/dev/null || : # older ones have none
  while IFS= read -r one; do
    if [[ -d $one || $one == *"$1" ]]; then COMPREPLY+=("$one"); fi
  done < <(compgen -f -- "$word")
}

_trundle() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} command='' i
  COMPREPLY=()
  if [[ $word == = ]]; then # --flag=VALUE is three words here
    word=''
  elif [[ $before == = && COMP_CWORD -gt 1 ]]; then
    before=${COMP_WORDS[COMP_CWORD - 2]}
  fi
  for ((i = 1; i < COMP_CWORD; i++)); do
    if [[ ${COMP_WORDS[i]} != -* ]]; then
      command=${COMP_WORDS[i]}
      break
    fi
  done
  case $command in
    '')
      _trundle_words '{{range .Names}}{{.}} {{end}}{{range .Flags}}--{{.Long}} {{end}}'
      ;;
{{- range .Commands}}
    {{.Name}})
      case $before in
{{- range .Flags}}{{if .Value.Takes}}
        --{{.Long}}{{if .Short}} | -{{.Short}}{{end}}) {{template "bash-values" .Value}} ;;
{{- end}}{{end}}
        *)
          case $word in
            -*) _trundle_words '{{range .Flags}}--{{.Long}} {{end}}' ;;
            *) {{template "bash-values" .Argument}} ;;
          esac
          ;;
      esac
      ;;
{{- end}}
  esac
}

complete -F _trundle trundle
