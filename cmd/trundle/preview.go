package main

// This file shows a pack while it is written.

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os/exec"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"time"

	"rsc.io/qr"

	"trundle/generator/mirror"
	"trundle/generator/preview"
	"trundle/generator/problem"
	"trundle/generator/read"
	"trundle/site"
)

// previewCommand shows both editions to this computer, and with --lan the students' edition to the network.
type previewCommand struct {
	Pack string `arg:"" help:"The pack's folder."`
	Port uint16 `default:"4870" placeholder:"NUMBER" help:"port"`
	Open bool   `help:"Open the pages in the browser."`
	LAN  bool   `name:"lan" help:"lan"`
}

// Run serves nothing before the pack has been read once, so that the first page is never empty.
func (c *previewCommand) Run(p *program) error {
	if err := p.isFolder(c.Pack); err != nil {
		return err
	}
	pages, err := preview.New()
	if err != nil {
		return err
	}
	ctx, stop := context.WithCancel(p.ctx)
	defer stop()
	v := viewing{program: p, pack: c.Pack, pages: pages}
	ready, watched := make(chan struct{}), make(chan error, 1)
	go func() {
		defer stop() // nothing follows the pack any more
		watched <- caught(func() error {
			first := sync.OnceFunc(func() { close(ready) })
			mirror.Watch(ctx, c.Pack, read.Concerns, func(change mirror.Change) {
				v.tell(ctx, change)
				first()
			})
			return nil
		})
	}()
	select {
	case <-ready:
		err = c.serve(ctx, p, pages)
	case <-ctx.Done():
	}
	stop()
	return cmp.Or(<-watched, err)
}

// viewing prints what becomes of the pack: a line for every save, so that a coach who looks at the terminal sees that
// the save arrived, and how it went.
type viewing struct {
	*program
	pack  string
	pages *preview.Preview
	looks bool            // the folder is looked through every second, and that was said
	good  bool            // there was something to show once
	known map[string]bool // the cautions of the save before
}

// news are the problems that a save has to tell of, errors first. A caution that was there before is one that the
// coach has accepted.
func (v *viewing) news(problems []problem.Problem) []problem.Problem {
	var some []problem.Problem
	now := map[string]bool{}
	for _, p := range problem.ByWeight(problems) {
		key := p.File.Name + "\x00" + p.Slug + "\x00" + p.What // its line moves as the file is written
		if p.Severity == problem.Error || !v.known[key] {
			some = append(some, p)
		}
		now[key] = p.Severity == problem.Caution
	}
	v.known = now
	return some
}

// tell takes a change of the folder, has the pages follow it, and prints what came of it. It is called by one
// goroutine, one change after the other, so nothing in viewing needs a lock.
func (v *viewing) tell(ctx context.Context, change mirror.Change) {
	if change.Looks && !v.looks {
		v.looks = true
		fmt.Fprintln(v.stderr, "trundle: this folder does not report changes (perhaps the system watches too many already), "+
			"so it is checked every second")
	}
	if change.Files == nil {
		v.pages.Gone()
		fmt.Fprintf(v.stderr, "trundle: the folder %s cannot be read now: %v\n"+
			"   the pages stay as they are; trundle looks for it every second\n", v.pack, change.Err)
		return
	}
	notice := ""
	if v.looks {
		notice = "live-looks"
	}
	start := time.Now()
	proved, err := v.pages.Update(ctx, change.Files, notice)
	if err != nil {
		if ctx.Err() == nil {
			v.fail(failed, err)
		}
		return
	}
	news := v.news(proved.Problems)
	if problem.PrintMost(v.stderr, prefixOf(v.pack), news) != nil {
		return // nobody reads
	}
	if len(news) > 0 {
		fmt.Fprintf(v.stderr, "\n%s\n", problem.Summary(proved.Problems))
	}
	// A reader of the terminal wants to see the file that was saved, and not a list of what a checkout changed.
	what := "all"
	if n := len(change.Names); n == 1 {
		what = change.Names[0]
	} else if n > 1 && n < 20 {
		what = problem.Plural(n, "file")
	}
	if proved.HasErrors() { // the pages show the problems as well, under the last good version
		says := "the last good pages stay"
		if !v.good {
			says = "there is nothing to show yet: the pages appear once the problems are fixed"
		}
		fmt.Fprintf(v.stdout, "%s: %s\n", what, says)
		return
	}
	v.good = true
	fmt.Fprintf(v.stdout, "%s: %s (%d ms)\n", what, counted(proved), time.Since(start).Milliseconds())
}

// tries is how many ports after the one asked for are tried: enough for a class of previews on one computer.
const tries = 50

// listen takes the port that was asked for, or one of the next if others have it. The error is that of the first: it
// is about the port that somebody asked for.
func (c *previewCommand) listen(host string) (net.Listener, error) {
	var first error
	for port := int(c.Port); port <= min(int(c.Port)+tries, 65535); port++ {
		l, err := net.Listen("tcp", net.JoinHostPort(host, strconv.Itoa(port)))
		if err == nil {
			return l, nil
		}
		if first == nil {
			first = err
		}
	}
	return nil, first
}

// serve runs until the context ends or a server fails. The servers' time limits keep a tablet that falls asleep in the
// middle of a request from holding its connection for ever.
func (c *previewCommand) serve(ctx context.Context, p *program, pages *preview.Preview) error {
	local, err := c.listen("127.0.0.1")
	if err != nil {
		return err
	}
	if port := local.Addr().(*net.TCPAddr).Port; c.Port != 0 && port != int(c.Port) {
		fmt.Fprintf(p.stderr, "trundle: port %d is taken; this is %d\n", c.Port, port)
	}
	servers := []*http.Server{}
	ended := make(chan error, 2)
	start := func(l net.Listener, how preview.Serve) error {
		how.Done = ctx.Done()
		handler, err := pages.Handler(how)
		if err != nil {
			return errors.Join(err, l.Close())
		}
		s := preview.NewServer(handler)
		servers = append(servers, s)
		go func() { ended <- caught(func() error { return s.Serve(l) }) }()
		return nil
	}
	if err := start(local, preview.Serve{Hosts: preview.Hosts(local.Addr(), "127.0.0.1", "localhost", "::1"),
		Editions: []site.Edition{site.Mentors, site.Students}, Author: true}); err != nil {
		return err
	}
	address := "http://" + local.Addr().String() + "/"
	fmt.Fprintf(p.stdout, "%s   both editions, on this computer only; Ctrl-C ends it\n", address)
	if c.LAN { // without a network the coach can still write, so this ends nothing
		if err := c.lan(p, start); err != nil {
			p.fail(failed, err)
		}
	}
	if c.Open {
		if err := browse(address); err != nil {
			p.fail(failed, fmt.Errorf("no browser could be opened: %w", err))
		}
	}
	select {
	case err = <-ended:
	case <-ctx.Done():
		err = nil
	}
	// Pages that listen hear of the end by ctx; others are given a moment.
	last, cancel := context.WithTimeout(context.WithoutCancel(ctx), 2*time.Second)
	defer cancel()
	for _, s := range servers {
		if s.Shutdown(last) != nil {
			_ = s.Close()
		}
	}
	return err
}

// lan shows the students' edition to the network. The mentors' edition has a server of its own, bound to this computer,
// so no address or header from outside can reach a key.
func (c *previewCommand) lan(p *program, start func(net.Listener, preview.Serve) error) error {
	host, err := ownAddress()
	if err != nil {
		return err
	}
	l, err := c.listen(host)
	if err != nil {
		return err
	}
	address := "http://" + l.Addr().String() + "/"
	if err := start(preview.Limited(l), preview.Serve{Hosts: preview.Hosts(l.Addr(), host),
		Editions: []site.Edition{site.Students}}); err != nil {
		return err
	}
	fmt.Fprintf(p.stdout, "%s   students' edition, for EVERYBODY in this network, while this runs: "+
		"no keys, no notes, nothing to log in\n", address)
	code, err := qr.Encode(address, qr.M)
	if err != nil {
		return err
	}
	_, err = fmt.Fprint(p.stdout, blocks(code))
	return err
}

// ownAddress is this computer's address in its network, a private one if it has any: that is the one that tablets in
// the same room can reach. Addresses of version 4 only, as they are short enough to be typed.
func ownAddress() (string, error) {
	all, err := net.InterfaceAddrs()
	if err != nil {
		return "", err
	}
	other := ""
	for _, a := range all {
		n, ok := a.(*net.IPNet)
		if !ok || n.IP.To4() == nil || n.IP.IsLoopback() || n.IP.IsLinkLocalUnicast() {
			continue
		}
		if n.IP.IsPrivate() {
			return n.IP.String(), nil
		}
		other = n.IP.String()
	}
	if other == "" {
		return "", errors.New("this computer has no address in a network; --lan has nothing to show the pages to")
	}
	return other, nil
}

// blocks draws a code for a terminal, two rows in a line, dark on light with its quiet zone.
func blocks(code *qr.Code) string {
	const quiet = 4
	var b strings.Builder
	for y := -quiet; y < code.Size+quiet; y += 2 {
		for x := -quiet; x < code.Size+quiet; x++ {
			// A terminal is dark as a rule, so light modules are the ones that are drawn.
			switch above, below := !code.Black(x, y), !code.Black(x, y+1); {
			case above && below:
				b.WriteRune('█')
			case above:
				b.WriteRune('▀')
			case below:
				b.WriteRune('▄')
			default:
				b.WriteByte(' ')
			}
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// browse opens an address with what the system has for that. It does not wait: some of these programs run as long as
// the browser does.
func browse(address string) error {
	switch runtime.GOOS {
	case "darwin":
		return exec.Command("open", address).Start()
	case "windows":
		return exec.Command("rundll32", "url.dll,FileProtocolHandler", address).Start()
	}
	return exec.Command("xdg-open", address).Start()
}
