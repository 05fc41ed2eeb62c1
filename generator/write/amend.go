package write

// This file writes a file anew while it is read. Of what is new only that is in memory for which there is no place yet.

import (
	"errors"
	"io"
	"os"
)

// inPlace reads a file from its beginning, and writes over what was read.
type inPlace struct {
	from  *io.SectionReader // what was in it when it was opened
	on    *os.File
	write func([]byte) (int, error) // to on, one after the other

	read, written int
	ahead         []byte // to be written where nobody has read yet
}

// amendInPlace lets do write what it makes of a file that is open for both. write writes to it.
func amendInPlace(on *os.File, write func([]byte) (int, error), do func(to io.Writer, from io.Reader) error) error {
	about, err := on.Stat()
	if err != nil {
		return err
	}
	p := &inPlace{from: io.NewSectionReader(on, 0, about.Size()), on: on, write: write}
	if err := do(p, p); err != nil {
		return err
	}
	p.read = p.written + len(p.ahead) // nobody reads on
	return errors.Join(p.flush(), on.Truncate(int64(p.written)))
}

func (p *inPlace) Read(to []byte) (int, error) {
	n, err := p.from.Read(to)
	p.read += n
	return n, err
}

func (p *inPlace) Write(data []byte) (int, error) {
	p.ahead = append(p.ahead, data...)
	return len(data), p.flush()
}

// flush writes as far as was read.
func (p *inPlace) flush() error {
	now := min(len(p.ahead), p.read-p.written)
	n, err := p.write(p.ahead[:now])
	p.written += n
	p.ahead = append(p.ahead[:0], p.ahead[n:]...)
	return err
}
