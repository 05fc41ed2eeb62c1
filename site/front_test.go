package site_test

// The page of the season, made from packs with odd weeks.

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"trundle/generator/lesson"
	"trundle/site"
)

// frontOf is the page of a season whose lessons are in these weeks, each of these minutes.
func frontOf(t *testing.T, start string, e site.Edition, weeks []int, minutes int) string {
	t.Helper()
	s, err := site.New("en")
	if err != nil {
		t.Fatal(err)
	}
	p := &lesson.Pack{Title: "T", Language: "en"}
	if start != "" {
		if p.Start, err = time.Parse(time.DateOnly, start); err != nil {
			t.Fatal(err)
		}
	}
	for _, week := range weeks {
		p.Lessons = append(p.Lessons, &lesson.Lesson{Slug: "01-t", Title: "L", Week: week, Minutes: minutes})
	}
	page, err := s.Front(p, e)
	if err != nil {
		t.Fatal(err)
	}
	return string(page)
}

// TestTheTapeLeavesNoWeekOut looks at weeks with several lessons, weeks without one, and lessons out of order.
func TestTheTapeLeavesNoWeekOut(t *testing.T) {
	number := regexp.MustCompile(`<b>([^<]*)</b>(?: <time datetime="([^"]*)">([^<]*)</time>)?|<h2>|</ol>`)
	for _, c := range []struct {
		start string
		weeks []int
		want  string // of each week its number, its date, and a / for each lesson; ¦ ends a column
	}{
		{"", []int{1, 2, 3}, "1/ 2/¦ 3/¦"},
		{"", []int{1, 1, 2}, "1// ¦2/¦"},
		{"", []int{2, 5, 9}, "2/ 3–4 5/¦ 6–8 9/¦"},
		{"", []int{3, 1, 2}, "3/ 1/¦ 2/¦"},
		{"", []int{1}, "1/¦"},
		{"", nil, "¦"},
		{"2026-12-21", []int{1, 3}, "1 2026-12-21 21 Dec/ 2 2026-12-28 28 Dec¦ 3 2027-01-04 4 Jan/¦"},
		{"2028-02-28", []int{1, 2}, "1 2028-02-28 28 Feb/¦ 2 2028-03-06 6 Mar/¦"},
	} {
		got := ""
		for _, m := range number.FindAllStringSubmatch(frontOf(t, c.start, site.Students, c.weeks, 60), -1) {
			switch m[0] {
			case "<h2>":
				got += "/"
			case "</ol>":
				got += "¦"
			default:
				got += strings.TrimRight(" "+strings.Join(m[1:], " "), " ")
			}
		}
		if plain := strings.ReplaceAll(got, " ", ""); plain != strings.ReplaceAll(c.want, " ", "") {
			t.Errorf("the tape of the weeks %v reads %q, want %q", c.weeks, got, c.want)
		}
	}
}

func TestTheSeasonSaysHowLongItIs(t *testing.T) {
	for _, c := range []struct {
		weeks   []int
		minutes int
		want    string
	}{
		{[]int{1, 2, 3}, 50, "Three weeks, 2 h 30 min."},
		{[]int{1, 2, 2}, 40, "Two weeks, three lessons, 2 h."},
		{[]int{4}, 45, "One lesson, 45 min."},
		{[]int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21}, 60, "21 weeks, 21 h."},
	} {
		page := frontOf(t, "", site.Students, c.weeks, c.minutes)
		if want := `<p class="length">` + c.want + `</p>`; !strings.Contains(strings.ReplaceAll(page, "\u00a0", " "), want) {
			t.Errorf("the page of %v lacks %s", c.weeks, want)
		}
	}
}

// TestOnlyMentorsGetBothSheets: a students' page leads to nothing with keys.
func TestOnlyMentorsGetBothSheets(t *testing.T) {
	const blank = `href="../students/sheets/01-t-a4.pdf"`
	if page := frontOf(t, "", site.Mentors, []int{1}, 60); !strings.Contains(page, blank) ||
		!strings.Contains(page, `href="sheets/01-t-a4.pdf"`) {
		t.Error("mentors cannot print both sheets from the season")
	}
	page := frontOf(t, "", site.Mentors, []int{1}, 60)
	for _, to := range []string{"sheets/01-t-mentor-letter.pdf", "../students/sheets/season-a4.pdf",
		"sheets/season-mentor-a4.pdf"} {
		if !strings.Contains(page, `href="`+to+`"`) {
			t.Errorf("mentors do not get to %s from the season", to)
		}
	}
	if page := frontOf(t, "", site.Students, []int{1}, 60); !strings.Contains(page, `href="sheets/season-letter.pdf"`) ||
		strings.Contains(page, "-mentor-") {
		t.Error("students do not get to all their worksheets in one file, or get to run sheets")
	}
	if page := frontOf(t, "", site.Students, []int{1}, 60); strings.Contains(page, "../") {
		t.Error("the students' season leads out of its folder")
	}
}
