package preview

// The preview over HTTP: files, and a stream of news for each page that is open. It answers to this computer's own
// names and to nothing that writes. What a file or a piece of news holds is made in preview.go.

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"fmt"
	"mime"
	"net"
	"net/http"
	"path"
	"slices"
	"strconv"
	"strings"
	"time"

	"trundle/site"
)

//go:embed live.js
var liveScript []byte

//go:embed live.css
var liveStyle []byte

// liveFolder holds what pages need to follow their sources; no pack has a folder of that name.
const liveFolder = "/_live/"

// sendLimit is how long a browser may take to accept what is sent; a browser that hangs is let go.
const sendLimit = 10 * time.Second

// heartbeat is how often a silent connection is tried.
const heartbeat = 20 * time.Second

// Serve is how a preview is served.
type Serve struct {
	Hosts    []string // that it answers to, with their ports
	Editions []site.Edition
	Author   bool // pages carry the author's strip, with what is wrong in the sources
	Done     <-chan struct{}
}

// Handler serves the pages.
func (p *Preview) Handler(how Serve) (http.Handler, error) {
	return &handler{preview: p, how: how, live: map[string][]byte{"live.js": liveScript, "live.css": liveStyle}}, nil
}

// handler serves a preview; live has what lies in liveFolder.
type handler struct {
	preview *Preview
	how     Serve
	live    map[string][]byte
}

// ServeHTTP answers what a page of this preview may ask, and refuses everything else.
func (h *handler) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	// A page of another site could be made to name this computer; it would not know it by its own name.
	if !slices.Contains(h.how.Hosts, strings.ToLower(r.Host)) {
		refuse(w, http.StatusForbidden)
		return
	}
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		w.Header().Set("Allow", "GET, HEAD")
		refuse(w, http.StatusMethodNotAllowed)
		return
	}
	// Names are only looked up, never opened; a path that leads out of its folder is refused all the same.
	if dots(r.URL.Path) || dots(r.URL.RawPath) || strings.Contains(strings.ToLower(r.RequestURI), "%2e%2e") {
		refuse(w, http.StatusBadRequest)
		return
	}
	head := w.Header()
	head.Set("Cache-Control", "no-store")
	head.Set("X-Content-Type-Options", "nosniff")
	// No script of an earlier state may answer for us.
	head.Set("Content-Security-Policy", "worker-src 'none'; frame-ancestors 'none'")
	head.Set("Cross-Origin-Resource-Policy", "same-origin")
	name := strings.TrimPrefix(r.URL.Path, "/")
	below, isLive := strings.CutPrefix(r.URL.Path, liveFolder)
	switch {
	case name == "":
		http.Redirect(w, r, "/"+string(h.how.Editions[0])+"/index.html", http.StatusFound)
	case isLive && below == "events":
		h.events(w, r)
	case isLive && h.live[below] != nil:
		h.send(w, r, below, h.live[below], http.StatusOK)
	case !isLive:
		h.file(w, r, name)
	default:
		refuse(w, http.StatusNotFound)
	}
}

// dots tells whether a path leads out of a folder.
func dots(p string) bool {
	return slices.Contains(strings.FieldsFunc(p, func(r rune) bool { return r == '/' || r == '\\' }), "..")
}

func refuse(w http.ResponseWriter, code int) { http.Error(w, http.StatusText(code), code) }

// served tells whether an edition is given out.
func (h *handler) served(name string) bool {
	edition, _, _ := strings.Cut(name, "/")
	return slices.Contains(h.how.Editions, site.Edition(edition))
}

// file sends a file of the output, or a page that says that there is nothing yet, or no such page.
func (h *handler) file(w http.ResponseWriter, r *http.Request, name string) {
	if !h.served(name) {
		refuse(w, http.StatusNotFound)
		return
	}
	if strings.HasSuffix(name, "/") {
		name += "index.html"
	}
	s, _ := h.preview.now()
	data, ok, err := h.preview.file(s, s.in.served, name)
	code := http.StatusOK
	switch {
	case err != nil:
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	case !ok && s.good == nil && path.Ext(name) == ".html":
		edition, _, _ := strings.Cut(name, "/")
		if data, err = s.in.nothing(site.Edition(edition)); err != nil {
			http.Error(w, err.Error(), http.StatusInternalServerError)
			return
		}
	case !ok && path.Ext(name) == ".html":
		if data, err = s.in.gone(s, name); err != nil {
			http.Error(w, err.Error(), http.StatusInternalServerError)
			return
		}
		code = http.StatusNotFound
	case !ok:
		refuse(w, http.StatusNotFound)
		return
	}
	h.send(w, r, name, data, code)
}

// send sends a file whole, or only what is known about it.
func (h *handler) send(w http.ResponseWriter, r *http.Request, name string, data []byte, code int) {
	kind := mime.TypeByExtension(path.Ext(name))
	if known, ok := kinds[path.Ext(name)]; ok {
		kind = known
	}
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Content-Length", strconv.Itoa(len(data)))
	_ = http.NewResponseController(w).SetWriteDeadline(time.Now().Add(time.Minute))
	w.WriteHeader(code)
	if r.Method == http.MethodGet {
		_, _ = w.Write(data) // a browser may have gone; that is not a fault
	}
}

// kinds do not depend on what the system knows.
var kinds = map[string]string{
	".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8",
	".svg": "image/svg+xml", ".woff2": "font/woff2", ".txt": "text/plain; charset=utf-8", ".pdf": "application/pdf",
}

// events sends a page every new state, until it goes away. A page that is slow gets the last one only.
func (h *handler) events(w http.ResponseWriter, r *http.Request) {
	name := strings.TrimPrefix(r.URL.Query().Get("page"), "/")
	if strings.HasSuffix(name, "/") {
		name += "index.html"
	}
	if !h.served(name) || dots(name) || r.Method != http.MethodGet {
		refuse(w, http.StatusNotFound)
		return
	}
	w.Header().Set("Content-Type", "text/event-stream")
	out := http.NewResponseController(w)
	_ = out.SetReadDeadline(time.Time{}) // the request is here, and its page stays open for hours
	say := func(text string) bool {
		_ = out.SetWriteDeadline(time.Now().Add(sendLimit))
		_, err := fmt.Fprint(w, text)
		return err == nil && out.Flush() == nil
	}
	page := ""
	for {
		s, changed := h.preview.now()
		n, err := h.preview.news(s, name, h.how.Author)
		if err != nil {
			return
		}
		// The page goes out only if it is another; the strip may have changed without it.
		if n.Page == page {
			n.Page = ""
		} else if n.Page != "" {
			page = n.Page
		}
		if !say("data: " + oneLine(n) + "\n\n") {
			return
		}
		// A comment of the stream is sent now and then, since only writing shows that a browser has gone.
		for waiting := true; waiting; {
			beat := time.NewTimer(heartbeat)
			select {
			case <-changed:
				waiting = false
			case <-beat.C:
				if !say(": \n\n") {
					waiting = false
					beat.Stop()
					return
				}
			case <-r.Context().Done():
				beat.Stop()
				return
			case <-h.how.Done:
				beat.Stop()
				return
			}
			beat.Stop()
		}
	}
}

// line writes news in one line, as the stream wants it.
func oneLine(n news) string {
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	if enc.Encode(n) != nil {
		return "{}" // strings and a number; it cannot fail
	}
	return strings.TrimSuffix(out.String(), "\n")
}

// Hosts are the names by which a computer is called at an address, with the port.
func Hosts(addr net.Addr, names ...string) []string {
	_, port, err := net.SplitHostPort(addr.String())
	if err != nil {
		return nil
	}
	var all []string
	for _, name := range names {
		all = append(all, strings.ToLower(net.JoinHostPort(name, port)))
		if port == "80" { // which browsers leave out
			all = append(all, strings.TrimSuffix(strings.ToLower(net.JoinHostPort(name, port)), ":80"))
		}
	}
	return all
}
