package preview

// How long and how often others may be connected: whoever is in the network may try to hold the computer.

import (
	"net"
	"net/http"
	"sync"
	"time"
)

// Limits of connections at the same time: a browser opens six, and a class shares one address at most behind a router.
const (
	mostConnections = 512
	mostOfOne       = 64
)

// NewServer gives a server that ends requests which take long to arrive. Streams of news have no such end; see events.
func NewServer(h http.Handler) *http.Server {
	return &http.Server{Handler: h, ReadHeaderTimeout: 10 * time.Second, ReadTimeout: 20 * time.Second,
		IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 64 << 10}
}

// Limited is a listener that closes connections beyond the limits as soon as they come.
func Limited(l net.Listener) net.Listener { return &limited{Listener: l, of: map[string]int{}} }

type limited struct {
	net.Listener
	lock sync.Mutex
	all  int
	of   map[string]int // by address
}

// Accept waits for a connection that is within the limits.
func (l *limited) Accept() (net.Conn, error) {
	for {
		c, err := l.Listener.Accept()
		if err != nil {
			return nil, err
		}
		host, _, _ := net.SplitHostPort(c.RemoteAddr().String())
		if l.enter(host) {
			return &counted{Conn: c, left: sync.OnceFunc(func() { l.leave(host) })}, nil
		}
		_ = c.Close()
	}
}

func (l *limited) enter(host string) bool {
	l.lock.Lock()
	defer l.lock.Unlock()
	if l.all >= mostConnections || l.of[host] >= mostOfOne {
		return false
	}
	l.all++
	l.of[host]++
	return true
}

func (l *limited) leave(host string) {
	l.lock.Lock()
	defer l.lock.Unlock()
	l.all--
	if l.of[host]--; l.of[host] == 0 {
		delete(l.of, host)
	}
}

// counted is a connection that makes room when it is closed.
type counted struct {
	net.Conn
	left func()
}

// Close closes the connection.
func (c *counted) Close() error {
	c.left()
	return c.Conn.Close()
}
