package pdfua

// A PDF file as qpdf gives it: its objects as JSON, its streams decoded.

import (
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"slices"
	"strings"
)

// A File is the objects of a PDF. Tests may change them.
type File struct {
	Objects map[string]any    // values by what refers to them, such as "3 0 R"
	Streams map[string][]byte // decoded
	trailer map[string]any
}

// Read gives the objects of a PDF.
func Read(pdf []byte) (*File, error) {
	source, err := os.CreateTemp("", "*.pdf")
	if err != nil {
		return nil, err
	}
	defer os.Remove(source.Name())
	_, err = source.Write(pdf)
	if e := source.Close(); err == nil {
		err = e
	}
	if err != nil {
		return nil, err
	}
	out, err := exec.Command("qpdf", "--json", "--json-key=qpdf", "--json-stream-data=inline",
		"--decode-level=generalized", source.Name()).Output()
	if err != nil {
		return nil, fmt.Errorf("qpdf: %w\n%s", err, out)
	}
	return parsed(out)
}

func parsed(out []byte) (*File, error) {
	var all struct{ Qpdf []json.RawMessage }
	if err := json.Unmarshal(out, &all); err != nil {
		return nil, err
	}
	if len(all.Qpdf) != 2 {
		return nil, fmt.Errorf("qpdf gives %d parts, not 2", len(all.Qpdf))
	}
	var objects map[string]struct {
		Value  any
		Stream *struct {
			Data []byte
			Dict any
		}
	}
	if err := json.Unmarshal(all.Qpdf[1], &objects); err != nil {
		return nil, err
	}
	f := &File{Objects: map[string]any{}, Streams: map[string][]byte{}}
	for name, o := range objects {
		name = strings.TrimPrefix(name, "obj:")
		f.Objects[name] = o.Value
		if o.Stream != nil {
			f.Objects[name], f.Streams[name] = o.Stream.Dict, o.Stream.Data
		}
	}
	f.trailer, _ = f.Objects["trailer"].(map[string]any)
	return f, nil
}

// value is what is meant, if it is only referred to.
func (f *File) value(v any) any {
	if name, ok := v.(string); ok && strings.HasSuffix(name, " 0 R") && !strings.Contains(name, ":") {
		return f.Objects[name]
	}
	return v
}

func (f *File) dict(v any) map[string]any {
	d, _ := f.value(v).(map[string]any)
	return d
}

func (f *File) array(v any) []any {
	a, _ := f.value(v).([]any)
	return a
}

// list is an array, or the one thing that stands for it.
func (f *File) list(v any) []any {
	switch v := f.value(v).(type) {
	case nil:
		return nil
	case []any:
		return v
	}
	return []any{v}
}

// text is a string of the file's.
func (f *File) text(v any) string {
	s, _ := f.value(v).(string)
	return strings.TrimPrefix(strings.TrimPrefix(s, "u:"), "b:")
}

// name is a name without its slash.
func (f *File) name(v any) string {
	s, _ := f.value(v).(string)
	return strings.TrimPrefix(s, "/")
}

func (f *File) number(v any) (float64, bool) {
	n, ok := f.value(v).(float64)
	return n, ok
}

// reference is what refers to a value.
func reference(v any) string {
	s, _ := v.(string)
	return s
}

// Find gives the objects of a type, or that test says yes to.
func (f *File) Find(is func(dict map[string]any) bool) []map[string]any {
	var all []map[string]any
	for _, name := range sorted(f.Objects) {
		if d, ok := f.Objects[name].(map[string]any); ok && is(d) {
			all = append(all, d)
		}
	}
	return all
}

func sorted[V any](of map[string]V) []string { return slices.Sorted(maps.Keys(of)) }
