package source

// Texts that are not kept, but read again when somebody asks for them: all lessons of a large pack at once would fill
// the memory.

import (
	"sync"
	"weak"
)

// content is a text with what is found in it once.
type content struct {
	text  []byte
	once  sync.Once
	lines []int // offset of each line's first byte
}

func (c *content) starts() []int {
	c.once.Do(func() {
		c.lines = []int{0}
		for i, b := range c.text {
			if b == '\n' {
				c.lines = append(c.lines, i+1)
			}
		}
	})
	return c.lines
}

// again is how a text is read again, and the text itself as long as nothing else wants the memory.
type again struct {
	lock  sync.Mutex
	read  func() []byte
	loose weak.Pointer[content]
}

func (a *again) content() *content {
	a.lock.Lock()
	defer a.lock.Unlock()
	if c := a.loose.Value(); c != nil {
		return c
	}
	c := &content{text: a.read()}
	a.loose = weak.Make(c)
	return c
}

// content is that of a file, read again if it has to be.
func (f *File) content() *content {
	if f.held != nil {
		return f.held()
	}
	return f.again.content()
}

// NewReadAgain makes a File of a name and its text, which is not kept: read gives the very same text again.
func NewReadAgain(name string, text []byte, read func() []byte, apart ...Apart) *File {
	return &File{Name: name, size: len(text), again: again{read: read, loose: weak.Make(&content{text: text})},
		apart: apart}
}
