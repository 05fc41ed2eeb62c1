package worksheets_test

// The season in one file: the lessons' own pages, with bookmarks and labels that lead to them.

import (
	"bytes"
	"encoding/json"
	"fmt"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"

	"trundle/worksheets"
)

func TestTheSeasonHasThePagesOfAllLessons(t *testing.T) {
	t.Parallel()
	proved, files := builtDemo(t)
	for _, p := range worksheets.Papers {
		students, mentors := "", ""
		for _, l := range proved.Lessons {
			students += text(t, files["students/sheets/"+l.Slug+"-"+p.Name+".pdf"])
			mentors += text(t, files["mentors/sheets/"+l.Slug+"-mentor-"+p.Name+".pdf"])
		}
		if text(t, files["students/sheets/season-"+p.Name+".pdf"]) != students {
			t.Errorf("the students' season on %s is not their sheets, one after the other", p.Name)
		}
		if text(t, files["mentors/sheets/season-mentor-"+p.Name+".pdf"]) != mentors {
			t.Errorf("the mentors' season on %s is not the run sheets, one after the other", p.Name)
		}
	}
}

// outlined is what qpdf says of a file's bookmarks and labels.
type outlined struct {
	Outlines   []mark
	PageLabels []struct {
		Index int
		Label map[string]any
	}
}

type mark struct {
	Title string
	Page  int `json:"destpageposfrom1"`
	Kids  []mark
}

func outlinesOf(t *testing.T, file []byte) outlined {
	t.Helper()
	var all outlined
	said := tool(t, file, "qpdf", "--json", "--json-key=outlines", "--json-key=pagelabels", "FILE")
	if err := json.Unmarshal([]byte(said), &all); err != nil {
		t.Fatal(err)
	}
	return all
}

func TestTheSeasonHasTheBookmarksOfAllLessonsAndLabelsTheirPages(t *testing.T) {
	t.Parallel()
	proved, files := builtDemo(t)
	for season, ending := range map[string]string{"students/sheets/season-a4.pdf": "-a4.pdf",
		"mentors/sheets/season-mentor-letter.pdf": "-mentor-letter.pdf"} {
		var marks []mark
		var labels []string
		before := 0
		for i, l := range proved.Lessons {
			own := files[path.Dir(season)+"/"+l.Slug+ending]
			for _, m := range outlinesOf(t, own).Outlines {
				marks = append(marks, m.after(before))
			}
			labels = append(labels, fmt.Sprintf("%d: u:%d-", before, i+1))
			before += pages(t, own)
		}
		got := outlinesOf(t, files[season])
		if fmt.Sprint(got.Outlines) != fmt.Sprint(marks) {
			t.Errorf("%s has the bookmarks\n%v\nand the lessons\n%v", season, got.Outlines, marks)
		}
		var labelled []string
		for _, l := range got.PageLabels {
			labelled = append(labelled, fmt.Sprintf("%d: %v", l.Index, l.Label["/P"]))
		}
		if !slices.Equal(labelled, labels) {
			t.Errorf("%s has the labels %q, want %q", season, labelled, labels)
		}
		parts := regexp.MustCompile(`(?m)^  Part`).FindAllString(tool(t, files[season], "pdfinfo", "-struct", "FILE"), -1)
		if len(parts) != len(proved.Lessons) {
			t.Errorf("%s has %d parts", season, len(parts))
		}
	}
}

// after is a bookmark where so many pages come before it.
func (m mark) after(pages int) mark {
	m.Page += pages
	kids := m.Kids
	m.Kids = nil
	for _, kid := range kids {
		m.Kids = append(m.Kids, kid.after(pages))
	}
	return m
}

func TestARunSheetHasABookmarkForEachOfItsParts(t *testing.T) {
	t.Parallel()
	proved, files := builtDemo(t)
	want := []string{"Before they come", "On the table", "Time plan", "Say first", "Keys at a glance", "Questions to ask",
		"How to tell that it worked"}
	for _, l := range proved.Lessons {
		for _, name := range runSheetsOf(l) {
			marks := outlinesOf(t, files[name]).Outlines
			if len(marks) != 1 || marks[0].Title != l.Title {
				t.Errorf("%s has the bookmarks %v", name, marks)
				continue
			}
			var parts []string
			for _, m := range marks[0].Kids {
				parts = append(parts, m.Title)
			}
			if !slices.Equal(parts, want) {
				t.Errorf("%s has the bookmarks %q below its title", name, parts)
			}
		}
	}
}

func TestASeasonOfNoLessonIsAFile(t *testing.T) {
	about := worksheets.About{Pack: "P", Version: "1", Language: "en", Words: english(t)}
	var file bytes.Buffer
	err := worksheets.Season(&file, worksheets.Papers[0], about, func(func([]byte, error) bool) {}, true)
	if err != nil {
		t.Fatal(err)
	}
	said := tool(t, file.Bytes(), "qpdf", "--check", "FILE")
	if !strings.Contains(said, "No syntax or stream encoding errors") {
		t.Error(said)
	}
}
