package page

import (
	"bytes"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/session"
	"seamrail/cmd/internal/starter"
	"seamrail/export/drive"
)

// fakeRun notes what it is asked, and runs until it is told to end: a rig that is not
// there.
type fakeRun struct {
	mu    sync.Mutex
	got   []drive.RequestKind
	over  chan struct{}
	fails error // how it ends
	anew  bool  // whether every plan is another
}

func newFakeRun() *fakeRun { return &fakeRun{over: make(chan struct{})} }

// steered is the run as the page steers it.
func (r *fakeRun) steered() *run {
	first := NewDriveState()
	first.Open, first.Axes = true, []AxisName{{Name: "rail", Unit: "mm", Speeds: []float64{2, 8}, Rests: []float64{0.1, 0.6}}}
	return &run{first, r}
}

func (r *fakeRun) Run() (string, error) { <-r.over; return "quit", r.fails }

func (r *fakeRun) Ask(x drive.Request) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.got = append(r.got, x.Kind)
}

func (r *fakeRun) Anew(*job.Job) bool { return r.anew }

func (r *fakeRun) Walk() { r.Ask(drive.Request{Kind: drive.WalkThrough}) }

func (r *fakeRun) asked() []drive.RequestKind {
	r.mu.Lock()
	defer r.mu.Unlock()
	return append([]drive.RequestKind(nil), r.got...)
}

// drivesInstead puts a run in the place of one on a rig.
func (s *Server) drivesInstead(r *fakeRun) {
	s.connect = func(*desk, *job.Job, session.Options) (*run, error) { return r.steered(), nil }
}

// opened is the page of a shot in a folder of its own.
func opened(t *testing.T) (*Server, string) {
	t.Helper()
	dir := t.TempDir()
	name := filepath.Join(dir, "lantern.toml")
	require.NoError(t, os.WriteFile(name, starter.Shot(), 0o640))
	require.NoError(t, os.WriteFile(filepath.Join(dir, starter.RigName), starter.Rig(), 0o640))
	s, err := Open(Options{Shot: name, Version: "test"})
	require.NoError(t, err)
	t.Cleanup(func() { _ = s.Close() })
	return s, dir
}

// counted is a page, and how many requests have passed its guard to be answered.
func counted(t *testing.T) (*Server, *int) {
	t.Helper()
	s, _ := opened(t)
	through := 0
	routes := s.routes()
	s.http.Handler = newGuard(s.key, s.listens.Addr(), http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path != ticketPath { // which looks at its word itself
			through++
		}
		routes.ServeHTTP(w, r)
	}))
	return s, &through
}

// untouched wants nothing planned, nothing driven and no file written.
func untouched(t *testing.T, s *Server, dir string) {
	t.Helper()
	require.Empty(t, s.first.plans.kept)
	require.Nil(t, s.driving.run)
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, entries, 2, "the shot and its rig")
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
