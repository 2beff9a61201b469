package page

import (
	"bytes"
	"encoding/json"
	"errors"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/export/drive"
	"seamrail/motion/judge"
	"seamrail/motion/rig"
	"seamrail/motion/shot"
)

// fakeCore plans nothing and counts what it is asked.
type fakeCore struct {
	mu    sync.Mutex
	asked int
	run   *fakeRun
}

var errFake = errors.New("this core plans nothing")

func (c *fakeCore) count() {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.asked++
}

func (c *fakeCore) Plan(shot.Shot, rig.Rig) (Planned, error) {
	c.count()
	if c.run == nil {
		return nil, errFake
	}
	return fakePlan{}, nil
}

func (c *fakeCore) Ask(string, shot.Shot, rig.Rig, map[string]string) ([]byte, error) {
	c.count()
	return []byte(`{"asked":true}`), nil
}

func (c *fakeCore) Sequence(file string) ([]byte, error) {
	c.count()
	return json.Marshal(file)
}

func (c *fakeCore) Drive(Planned, DriveOptions, Audience) (Run, error) {
	c.count()
	return c.run, nil
}

func (c *fakeCore) Takes(*TakeMark) ([]Take, error) { c.count(); return []Take{}, nil }
func (c *fakeCore) Ports() []Port                   { return []Port{} }

// fakePlan is a plan that may be driven.
type fakePlan struct{ Planned }

func (fakePlan) Unable() error { return nil }

func (fakePlan) Headline(bool) judge.Headline {
	return judge.Headline{Stamp: "READY", Words: "The loop closes."}
}

// fakeRun notes what it is asked, and runs until it is told to end.
type fakeRun struct {
	mu    sync.Mutex
	got   []drive.RequestKind
	over  chan struct{}
	fails error // how it ends
}

func newFakeRun() *fakeRun { return &fakeRun{over: make(chan struct{})} }

func (r *fakeRun) First() DriveState {
	d := NewDriveState()
	d.Open, d.Axes = true, []AxisName{{"rail", "mm"}}
	return d
}

func (r *fakeRun) Run() (string, error) { <-r.over; return "quit", r.fails }
func (r *fakeRun) Go(Planned) bool      { return true }

func (r *fakeRun) Mark(string, int, float64) (Set, error) {
	return Set{"axis.rail.from", "1 mm"}, nil
}

func (r *fakeRun) Ask(x drive.Request) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.got = append(r.got, x.Kind)
}

func (r *fakeRun) asked() []drive.RequestKind {
	r.mu.Lock()
	defer r.mu.Unlock()
	return append([]drive.RequestKind(nil), r.got...)
}

// opened is the page of a shot in a folder of its own.
func opened(t *testing.T, core *fakeCore) (*Server, string) {
	t.Helper()
	dir := t.TempDir()
	name := filepath.Join(dir, "lantern.toml")
	require.NoError(t, os.WriteFile(name, starter.Shot(), 0o640))
	require.NoError(t, os.WriteFile(filepath.Join(dir, starter.RigName), starter.Rig(), 0o640))
	s, err := Open(Options{Shot: name, Core: core, Version: "test"})
	require.NoError(t, err)
	t.Cleanup(func() { _ = s.Close() })
	return s, dir
}

// request is one as the page itself would make it.
func request(s *Server, method, path string, body any) *http.Request {
	data, _ := json.Marshal(body)
	r := httptest.NewRequest(method, "http://"+s.listens.Addr().String()+path, bytes.NewReader(data))
	r.Header.Set("Origin", "http://"+r.Host)
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	r.Header.Set(keyHeader, string(s.key))
	return r
}

// served is the answer to a request, through the guard.
func served(s *Server, r *http.Request) *httptest.ResponseRecorder {
	w := httptest.NewRecorder()
	s.http.Handler.ServeHTTP(w, r)
	return w
}

// posted asks as the page does.
func posted(s *Server, path string, body any) *httptest.ResponseRecorder {
	return served(s, request(s, http.MethodPost, path, body))
}
