package site

// What pages have to know of names: under which entries are kept, and under which they were kept before; and the pages
// that lead from a lesson's old address to the new one.

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"slices"
	"strings"
	"sync"

	"trundle/generator/lesson"
)

// KeepScript is the script that keeps entries. The names of its pack stand in front of it: a page needs them only when
// it is shown already.
const KeepScript = "assets/keep.js"

// nameTable is the table of names in JSON. All names on the left are of before, or still good for it: a lesson's
// entries may lie under its file's name from before it had an id. Sum tells it from the tables of other versions: a
// page whose boxes have other names must not have its entries moved away.
type nameTable struct {
	Sum     string                       `json:"sum"`
	Pack    string                       `json:"pack"`
	Earlier []string                     `json:"earlier,omitempty"` // of the pack
	Lessons map[string]string            `json:"lessons"`
	Boxes   map[string]map[string]string `json:"boxes,omitempty"` // by lesson
}

// PackID is the name under which a pack's entries are kept: that of all its versions in one season.
func PackID(p *lesson.Pack) string {
	return strings.TrimSpace(p.Key() + " " + p.Season.Value)
}

// latestNames remembers the table of the pack that was asked for last: every page has its sum, and to make the table
// anew for each would take longer than the pages do.
type latestNames struct {
	lock  sync.Mutex
	pack  *lesson.Pack
	table nameTable
}

// of gives a pack's table.
func (l *latestNames) of(p *lesson.Pack) (nameTable, error) {
	l.lock.Lock()
	defer l.lock.Unlock()
	if l.pack == p {
		return l.table, nil
	}
	table, err := namesOf(p)
	if err == nil {
		l.pack, l.table = p, table
	}
	return table, err
}

// Names writes a pack's table of names as a script.
func (s *Site) Names(p *lesson.Pack) ([]byte, error) {
	n, err := s.names.of(p)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false) // it is a file of its own, not part of a page
	b.WriteString("(globalThis.trundle??={}).names=")
	err = enc.Encode(n)
	return append(bytes.TrimSpace(b.Bytes()), ';'), err
}

// namesOf makes a pack's table of names.
func namesOf(p *lesson.Pack) (nameTable, error) {
	n := nameTable{Pack: p.Key()}
	n.Lessons, n.Boxes = p.NamesNow()
	for _, key := range p.EarlierKeys() {
		if key != n.Pack && !strings.Contains(key, " ") && !slices.Contains(n.Earlier, key) {
			n.Earlier = append(n.Earlier, key)
		}
	}
	data, err := json.Marshal(n)
	sum := sha256.Sum256(data)
	n.Sum = hex.EncodeToString(sum[:4])
	return n, err
}

// Moved makes the page at a lesson's old address. Printed codes and bookmarks lead there.
func (s *Site) Moved(p *lesson.Pack, m lesson.Move, e Edition) ([]byte, error) {
	content := struct{ Address, Title string }{addressOf(m.To.Slug + ".html"), cmp.Or(m.To.Title, m.To.Slug)}
	return s.page("moved.html", frame{Edition: e, Title: m.To.Title, Pack: p, Content: content})
}
