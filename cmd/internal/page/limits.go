package page

import (
	"errors"
	"io"
	"net"
	"net/http"
	"os"
	"strings"
	"sync"
	"sync/atomic"
	"time"
)

// limits are how long is waited for whoever asks, and for how many at a time. What hangs,
// by chance or to do harm, gives back what it holds.
type limits struct {
	head, body, reader, idle time.Duration
	connections, questions   int
}

// usual are far above what a browser on this machine takes.
var usual = limits{
	// The head of a request and a megabyte of a question come within milliseconds.
	head: 5 * time.Second,
	body: 10 * time.Second,
	// A page that is behind others reads in its own time, but it reads.
	reader: 30 * time.Second,
	idle:   2 * time.Minute,
	// A browser has six to a page at the most, of all its windows.
	connections: 64,
	// They share the processors: with more of them each only waits longer.
	questions: 32,
}

// maxHead is what the head of a request may have. Cookies of whatever else this machine
// serves come with every request.
const maxHead = 64 << 10

const noRoom = "so much is asked at once that there is no room for another question; ask again in a moment"

// server is one that keeps to the limits, whoever asks: whose question is refused unread
// sends it in time too, since the server reads what is left of it.
func (l limits) server(h http.Handler) *http.Server {
	return &http.Server{Handler: l.inTime(h), ReadHeaderTimeout: l.head, IdleTimeout: l.idle, MaxHeaderBytes: maxHead}
}

// inTime waits for nobody longer than the limits.
func (l limits) inTime(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		p := &patient{w, http.NewResponseController(w), l.reader}
		p.wait()
		if r.ContentLength != 0 {
			_ = p.control.SetReadDeadline(time.Now().Add(l.body)) // until the question is read; see ask
		}
		next.ServeHTTP(p, r)
	})
}

// around answers so many questions at a time. What drives a rig, Stop before all, finds
// room however much else is asked.
func (l limits) around(next http.Handler) http.Handler {
	var asked atomic.Int64
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if counts(r.URL.Path) {
			defer asked.Add(-1)
			if asked.Add(1) > int64(l.questions) {
				w.Header().Set("Retry-After", "1")
				refuse(w, http.StatusServiceUnavailable, noRoom)
				return
			}
		}
		next.ServeHTTP(w, r)
	})
}

func counts(path string) bool {
	return strings.HasPrefix(path, apiPath) && !strings.HasPrefix(path, apiPath+"drive/")
}

// patient writes for whoever reads, and waits so long for each piece to be taken. A stream
// may last for hours.
type patient struct {
	http.ResponseWriter
	control *http.ResponseController
	reader  time.Duration
}

func (p *patient) wait() { _ = p.control.SetWriteDeadline(time.Now().Add(p.reader)) }

// Write is that of http.ResponseWriter, as is WriteHeader.
func (p *patient) Write(data []byte) (int, error) {
	p.wait()
	return p.ResponseWriter.Write(data)
}

func (p *patient) WriteHeader(status int) {
	p.wait()
	p.ResponseWriter.WriteHeader(status)
}

// Unwrap is for http.ResponseController.
func (p *patient) Unwrap() http.ResponseWriter { return p.ResponseWriter }

// heard ends the wait for a question that has been read to its end, so that the connection
// can stay for as long as the answer takes.
func heard(w http.ResponseWriter) { _ = http.NewResponseController(w).SetReadDeadline(time.Time{}) }

// late tells whether a question was waited for in vain.
func late(err error) bool { return errors.Is(err, os.ErrDeadlineExceeded) }

// doorway lets so many connections in at a time, and tells others that there is no room.
type doorway struct {
	net.Listener
	room chan struct{}
}

func (l limits) doorway(to net.Listener) net.Listener {
	return doorway{to, make(chan struct{}, l.connections)}
}

// Accept is that of net.Listener.
func (d doorway) Accept() (net.Conn, error) {
	for {
		c, err := d.Listener.Accept()
		if err != nil {
			return nil, err
		}
		select {
		case d.room <- struct{}{}:
			return &guest{c, sync.OnceFunc(func() { <-d.room })}, nil
		default:
			turnAway(c)
		}
	}
}

// turnAway answers what has not been read, which is short enough for no one to wait.
func turnAway(c net.Conn) {
	_ = c.SetWriteDeadline(time.Now().Add(time.Second))
	_, _ = io.WriteString(c, "HTTP/1.1 503 Service Unavailable\r\nContent-Type: text/plain; charset=utf-8\r\nRetry-After: 1\r\nConnection: close\r\n\r\n"+noRoom+"\n")
	_ = c.Close()
}

// guest is a connection that was let in.
type guest struct {
	net.Conn
	leave func()
}

// Close is that of net.Conn.
func (g *guest) Close() error {
	g.leave()
	return g.Conn.Close()
}
