package parse

// The pack's address on the web, from which worksheets lead to their pages.

import (
	"net/url"
	"path"
	"slices"
	"strings"
	"unicode"

	"trundle/generator/lesson"
)

// MaxAddress is in bytes; a code of a longer one would be too fine for a printer. Judged by eye.
const MaxAddress = 150

// address reads the address of the folder that holds the students' pages, "" if there is none or it cannot be one. What
// comes out ends in a slash, so that a page's name can follow.
func (fs *fields) address(name string) string {
	written := fs.text(name, false)
	if strings.TrimSpace(written.Value) == "" {
		return ""
	}
	u, err := url.Parse(strings.TrimSpace(written.Value))
	if err != nil {
		fs.error(written.At, "address", "this is not a web address", "copy it from the address bar of a browser")
		return ""
	}
	what, hint := addressFault(u, written)
	if what != "" {
		fs.error(written.At, "address", what, hint)
		return ""
	}
	u.Path, u.RawPath = strings.TrimRight(u.Path, "/")+"/", ""
	return u.String()
}

// addressFault says what keeps an address from being that of a folder, and what to write.
func addressFault(u *url.URL, written lesson.Text) (what, hint string) {
	folder := &url.URL{Scheme: u.Scheme, Host: u.Host, Path: u.Path}
	switch ending := strings.ToLower(path.Ext(u.Path)); {
	case u.Scheme != "https" && u.Scheme != "http", u.Host == "", u.Hostname() == "":
		return "the pack's address must start with https:// and the name of a web server",
			"write it as a browser shows it, as in  address: https://club.example/season/"
	case strings.ContainsFunc(u.Host, func(r rune) bool { return r > unicode.MaxASCII }):
		return "the name of the web server has letters that a code on paper cannot hold",
			"write that name in the form that begins with xn--; whoever looks after the server knows it"
	case u.User != nil:
		return "the pack's address has a name or password in it, which would be printed on every worksheet",
			"leave out what stands before the @"
	case slices.Contains([]string{".html", ".htm", ".pdf", ".zip"}, ending):
		folder.Path = path.Dir(u.Path)
		return "the pack's address is that of a file, not of the folder that the students' pages are in",
			"write  address: " + strings.TrimRight(folder.String(), "/") + "/"
	case u.RawQuery != "" || u.ForceQuery || strings.Contains(written.Value, "#"):
		return "the pack's address goes on after its folder, with ? or #",
			"write  address: " + strings.TrimRight(folder.String(), "/") + "/"
	case len(u.String()) > MaxAddress: // as it goes into the code, with %D1%8B for a ы
		return "the pack's address is too long for a code on paper", "choose a shorter address for the pages"
	case len(u.Port()) > len("65535"), strings.ContainsAny(u.Host, " \t"), strings.Contains(u.Path+"/", "/../"):
		return "the pack's address is not one that a browser would show",
			"copy it from the address bar of a browser"
	}
	return "", ""
}
