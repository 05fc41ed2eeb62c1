package site

// Putting the version into finished files, line by line: what is of all lessons may be too large for the memory.

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"
)

// HasVersion is true of files that have their edition's version in them.
func HasVersion(name string) bool { return path.Ext(name) == ".html" || path.Ext(name) == ".js" }

// PutVersion copies a file of that name with the version in a page's head and its links to style sheets, or at a
// script's beginning, and nowhere else, whatever an author has written.
func PutVersion(to io.Writer, name string, from io.Reader, version string) error {
	in, out := bufio.NewReader(from), bufio.NewWriter(to)
	put := inScript
	if path.Ext(name) == ".html" {
		put = inPage()
	}
	var line []byte
	for more := true; more; {
		part, err := in.ReadSlice('\n')
		line = append(line, part...)
		switch {
		case errors.Is(err, bufio.ErrBufferFull):
			continue
		case err != nil && !errors.Is(err, io.EOF):
			return err
		}
		with, last := put(line, []byte(version))
		out.Write(with)
		line, more = line[:0], err == nil && !last
	}
	_, err := in.WriteTo(out)
	return errors.Join(err, out.Flush())
}

// inScript puts the version into a line of a script. last is true if that was its place.
func inScript(line, version []byte) (with []byte, last bool) {
	last = bytes.Contains(line, []byte(Draft))
	return bytes.Replace(line, []byte(Draft), version, 1), last
}

// inPage gives what puts the version into one line of a page after the other.
func inPage() func(line, version []byte) (with []byte, last bool) {
	inHead := true
	return func(line, version []byte) ([]byte, bool) {
		draft := []byte(Draft)
		if !inHead && !bytes.Contains(line, draft) {
			return line, false
		}
		head, body := line, []byte(nil)
		if before, _, ends := bytes.Cut(line, []byte("</head>")); ends || !inHead {
			head, body = line[:0], line
			if inHead {
				head, body, inHead = before, line[len(before):], false
			}
		}
		return append(bytes.ReplaceAll(head, draft, version), inLinks(body, version)...), false
	}
}

// inLinks puts the version into the links to style sheets in a part of a page's body.
func inLinks(body, version []byte) []byte {
	if !bytes.Contains(body, []byte(Draft)) {
		return body
	}
	for _, sheet := range pageStyles {
		link := fmt.Appendf(nil, bodyStyle, strings.TrimSuffix(path.Base(sheet.name), ".css"))
		body = bytes.ReplaceAll(body, append(bytes.Clone(link), Draft...), append(link, version...))
	}
	return body
}
