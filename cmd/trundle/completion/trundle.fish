{{- define "fish-values" -}}
{{if eq .Kind "folder"}} -a '(__fish_complete_directories)'{{else if eq .Kind "file"}}{{if .Suffix}} -a '(__fish_complete_suffix {{.Suffix}})'{{else}} -F{{end}}{{else if eq .Kind "words"}} -a '{{.List}}'{{end}}
{{- end -}}
# Completion of trundle in fish:
#   trundle completion fish > ~/.config/fish/completions/trundle.fish

complete -c trundle -f
{{- range .Flags}}
complete -c trundle -n __fish_use_subcommand{{if .Short}} -s {{.Short}}{{end}} -l {{.Long}} -d '{{fish .Help}}'
{{- end}}
{{- range .Commands}}{{$name := .Name}}
complete -c trundle -n __fish_use_subcommand -a {{.Name}} -d '{{fish .Help}}'
{{- range .Flags}}
complete -c trundle -n '__fish_seen_subcommand_from {{$name}}'{{if .Short}} -s {{.Short}}{{end}} -l {{.Long}}{{if .Value.Takes}} -r{{template "fish-values" .Value}}{{end}} -d '{{fish .Help}}'
{{- end}}
{{- if .Argument.Takes}}{{if ne .Argument.Kind "any"}}
complete -c trundle -n '__fish_seen_subcommand_from {{$name}}'{{template "fish-values" .Argument}}
{{- end}}{{end}}
{{- end}}
