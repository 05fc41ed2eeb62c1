package pdf_test

// Each rule of accessibility can fail: the sample is spoiled in one way after the other.

import (
	"bytes"
	"maps"
	"slices"
	"strings"
	"testing"

	"trundle/testdata/pdfua"
)

type dict = map[string]any

// of finds the one element of a type that comes first.
func of(f *pdfua.File, tag string) dict {
	return f.Find(func(d dict) bool { return d["/S"] == "/"+tag && d["/P"] != nil })[0]
}

// typed finds the first object of a type.
func typed(f *pdfua.File, name string) dict {
	return f.Find(func(d dict) bool { return d["/Type"] == "/"+name })[0]
}

// with finds the first object with an entry.
func with(f *pdfua.File, key string) dict {
	return f.Find(func(d dict) bool { return d[key] != nil })[0]
}

func font(f *pdfua.File) dict {
	return f.Find(func(d dict) bool { return d["/Subtype"] == "/Type0" })[0]
}

func below(f *pdfua.File) dict {
	return f.Find(func(d dict) bool { return d["/Subtype"] == "/CIDFontType2" })[0]
}

// rewrite changes the streams in which something is found.
func rewrite(f *pdfua.File, from, to string) {
	for name, data := range f.Streams {
		f.Streams[name] = bytes.Replace(data, []byte(from), []byte(to), 1)
	}
}

func drop(d dict, key string) { delete(d, key) }

func entry(d dict, key string) dict { return d[key].(dict) }

// cut takes the last of an array's entries away.
func cut(d dict, key string) { d[key] = d[key].([]any)[:len(d[key].([]any))-1] }

// spoils are ways to break a file, by the rule that tells.
var spoils = map[string]func(f *pdfua.File){
	"01-003": func(f *pdfua.File) { rewrite(f, "<</MCID 0>> BDC", "<</MCID 0>> BDC /Artifact BMC EMC") },
	"01-004": func(f *pdfua.File) { rewrite(f, "/Artifact BMC", "/Artifact BMC /P <</MCID 99>> BDC EMC") },
	"01-005": func(f *pdfua.File) { rewrite(f, "/Artifact BMC", "0 0 m 9 9 l S /Artifact BMC") },
	"01-007": func(f *pdfua.File) { entry(typed(f, "Catalog"), "/MarkInfo")["/Suspects"] = true },
	"02-001": func(f *pdfua.File) { of(f, "P")["/S"] = "/Paragraph" },
	"06-001": func(f *pdfua.File) { drop(typed(f, "Catalog"), "/Metadata") },
	"06-002": func(f *pdfua.File) { rewrite(f, "<pdfuaid:part>1", "<pdfuaid:part>2") },
	"06-003": func(f *pdfua.File) {
		rewrite(f, "<dc:title>", "<dc:title/><dc:other>")
		rewrite(f, "</dc:title>", "</dc:other>")
	},
	"07-001": func(f *pdfua.File) { drop(entry(typed(f, "Catalog"), "/ViewerPreferences"), "/DisplayDocTitle") },
	"09-004": func(f *pdfua.File) { of(f, "TD")["/S"] = "/P" },
	"09-005": func(f *pdfua.File) { of(f, "LI")["/S"] = "/P" },
	"10-001": func(f *pdfua.File) { rewrite(f, " beginbfchar\n<", " beginbfchar\n<ff>") },
	"11-001": func(f *pdfua.File) { typed(f, "Catalog")["/Lang"] = "u:" },
	"13-004": func(f *pdfua.File) { of(f, "Figure")["/Alt"] = "u: " },
	"14-002": func(f *pdfua.File) { of(f, "H1")["/S"] = "/H2" },
	"14-003": func(f *pdfua.File) { of(f, "H2")["/S"] = "/H3" },
	"14-007": func(f *pdfua.File) { of(f, "P")["/S"] = "/H" },
	"15-003": func(f *pdfua.File) { drop(of(f, "TH"), "/A") },
	"16-001": func(f *pdfua.File) { drop(of(f, "L"), "/A") },
	"17-002": func(f *pdfua.File) { drop(of(f, "Formula"), "/Alt"); drop(of(f, "Formula"), "/ActualText") },
	"26-001": func(f *pdfua.File) { entry(f.Objects, "trailer")["/Encrypt"] = "99 0 R" },
	"28-002": func(f *pdfua.File) { typed(f, "Annot")["/Subtype"] = "/Text" },
	"28-005": func(f *pdfua.File) { typed(f, "Annot")["/Subtype"] = "/Widget" },
	"28-008": func(f *pdfua.File) { drop(with(f, "/Annots"), "/Tabs") },
	"28-010": func(f *pdfua.File) { typed(f, "Annot")["/Subtype"] = "/Widget" },
	"28-011": func(f *pdfua.File) { cut(of(f, "Link"), "/K") },
	"28-012": func(f *pdfua.File) { drop(typed(f, "Annot"), "/Contents") },
	"31-005": func(f *pdfua.File) { drop(below(f), "/CIDToGIDMap") },
	"31-009": func(f *pdfua.File) { drop(with(f, "/FontFile2"), "/FontFile2") },
	"31-011": func(f *pdfua.File) { rewrite(f, ") Tj", "\xff\xf0) Tj") },
	"31-027": func(f *pdfua.File) { drop(font(f), "/ToUnicode") },
	"31-028": func(f *pdfua.File) { unicode(f, "0000") },
	"31-029": func(f *pdfua.File) { unicode(f, "FEFF") },
	"31-030": func(f *pdfua.File) { rewrite(f, ") Tj", "\x00\x00) Tj") },
	"widths": func(f *pdfua.File) { below(f)["/W"] = []any{} },

	"font-kind":   func(f *pdfua.File) { font(f)["/Encoding"] = "/Identity-V" },
	"operators":   func(f *pdfua.File) { rewrite(f, "/Artifact BMC", "BI EI /Artifact BMC") },
	"balance":     func(f *pdfua.File) { rewrite(f, "EMC", "EMC EMC") },
	"nested":      func(f *pdfua.File) { rewrite(f, "<</MCID 0>> BDC", "<</MCID 0>> BDC /P <</MCID 99>> BDC EMC") },
	"twice":       func(f *pdfua.File) { rewrite(f, "<</MCID 2>>", "<</MCID 1>>") },
	"artifact-id": func(f *pdfua.File) { rewrite(f, "/Artifact BMC", "/Artifact <</MCID 99>> BDC") },
	"marked":      func(f *pdfua.File) { drop(typed(f, "Catalog"), "/MarkInfo") },
	"parent-tree": func(f *pdfua.File) { drop(typed(f, "Annot"), "/StructParent") },
	"dangling":    func(f *pdfua.File) { rewrite(f, "<</MCID 2>>", "<</MCID 99>>") },
	"above":       func(f *pdfua.File) { of(f, "TD")["/P"] = "1 0 R" },
	"empty":       func(f *pdfua.File) { of(f, "H1")["/K"] = []any{} },
	"regular":     func(f *pdfua.File) { cut(of(f, "TR"), "/K") },
	"form-alt":    func(f *pdfua.File) { drop(of(f, "Form"), "/Alt") },
	"figure-box":  func(f *pdfua.File) { drop(of(f, "Figure"), "/A") },
	"list-item":   func(f *pdfua.File) { cut(of(f, "LI"), "/K") },
	"titles":      func(f *pdfua.File) { with(f, "/Producer")["/Title"] = "u:Another" },
	"outline":     func(f *pdfua.File) { drop(with(f, "/Prev"), "/Prev") },
}

// unicode gives the first code of each font another meaning.
func unicode(f *pdfua.File, to string) {
	for name, data := range f.Streams {
		_, after, found := bytes.Cut(data, []byte("beginbfchar\n<"))
		if found {
			f.Streams[name] = bytes.Replace(data, after[:12], []byte(string(after[:7])+to+">"), 1)
		}
	}
}

func TestEachRuleOfAccessibilityCanFail(t *testing.T) {
	if want := slices.Sorted(maps.Keys(pdfua.Rules)); !slices.Equal(slices.Sorted(maps.Keys(spoils)), want) {
		t.Errorf("the rules are %v", want)
	}
	file := made(t)
	for rule, spoil := range spoils {
		f, err := pdfua.Read(file)
		if err != nil {
			t.Fatal(err)
		}
		spoil(f)
		var all []string
		found := false
		for _, fault := range f.Faults() {
			all = append(all, fault.String())
			found = found || fault.Rule == rule
		}
		if !found {
			t.Errorf("%s (%s) is not noticed, only\n%s", rule, pdfua.Rules[rule], strings.Join(all, "\n"))
		}
	}
}

// The ways between content and elements can be wrong in more ways than one.
func TestTheParentTreeIsCheckedBothWays(t *testing.T) {
	file := made(t)
	for name, spoil := range map[string]func(f *pdfua.File){
		"a page without a way": func(f *pdfua.File) { drop(typed(f, "Page"), "/StructParents") },
		"two swapped":          func(f *pdfua.File) { a := numbers(f)[1].([]any); a[0], a[1] = a[1], a[0] },
		"one too few":          func(f *pdfua.File) { a := numbers(f); a[1] = a[1].([]any)[1:] },
		"one too many":         func(f *pdfua.File) { a := numbers(f); a[1] = append(a[1].([]any), a[1].([]any)[0]) },
		"a key of nothing": func(f *pdfua.File) {
			entry(typed(f, "StructTreeRoot"), "/ParentTree")["/Nums"] = append(numbers(f), 9.0, nil)
		},
		"keys out of order":       func(f *pdfua.File) { a := numbers(f); a[0], a[1], a[2], a[3] = a[2], a[3], a[0], a[1] },
		"a next key that is used": func(f *pdfua.File) { typed(f, "StructTreeRoot")["/ParentTreeNextKey"] = 1.0 },
	} {
		f, err := pdfua.Read(file)
		if err != nil {
			t.Fatal(err)
		}
		spoil(f)
		if !slices.ContainsFunc(f.Faults(), func(x pdfua.Fault) bool { return x.Rule == "parent-tree" }) {
			t.Errorf("%s is not noticed, only %v", name, f.Faults())
		}
	}
}

// numbers are the pairs of the parent tree: keys, and what they lead to.
func numbers(f *pdfua.File) []any {
	return entry(typed(f, "StructTreeRoot"), "/ParentTree")["/Nums"].([]any)
}
