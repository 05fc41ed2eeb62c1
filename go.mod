module trundle

go 1.26

require (
	github.com/alecthomas/chroma/v2 v2.27.0
	github.com/alecthomas/kong v1.17.0
	github.com/goccy/go-yaml v1.19.2
	github.com/yuin/goldmark v1.8.7
	gonum.org/v1/gonum v0.17.0
)

require github.com/dlclark/regexp2/v2 v2.2.1 // indirect
