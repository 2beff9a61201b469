package page

import (
	"context"
	"errors"
	"io/fs"
	"net"
	"net/http"
	"path/filepath"
	"sync"
	"time"

	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/session"
	"seamrail/cmd/internal/starter"
	"seamrail/motion/spec/rig"
)

// loopback is where the page is served: no other machine can reach it.
const loopback = "127.0.0.1"

const apiPath = "/api/"

// Options says which shot the page is about.
type Options struct {
	Shot    string   // file name; "" for the built-in shot, saved in this folder
	Rig     *rig.Rig // in place of the one the shot names; nil for that one
	Version string
}

// Server is the page of one shot.
type Server struct {
	shot    string // file name; "" for the built-in shot
	version string
	connect func(p *job.Job, o session.Options) (*run, error)
	doc     *document
	key     key
	ticket  ticket
	listens net.Listener
	curves  []Curve
	plans   plans
	hub     hub
	stage   stage
	driving driving
	wire    wire

	ctx   context.Context // ends with the server, and with it every stream
	close context.CancelFunc
	http  *http.Server
	once  sync.Once
}

// Open listens on a free port of this machine. Close it.
func Open(o Options) (*Server, error) {
	doc, err := openDocument(o)
	if err != nil {
		return nil, err
	}
	l, err := net.Listen("tcp4", net.JoinHostPort(loopback, "0"))
	if err != nil {
		return nil, errors.Join(err, doc.close())
	}
	s := &Server{shot: o.Shot, version: o.Version, doc: doc, key: newKey(), listens: l, curves: lawCurves()}
	s.connect = s.onRig
	s.ticket.word = newKey()
	s.stage.news, s.stage.state, s.stage.version = s.hub.wake, NewDriveState(), 1
	s.ctx, s.close = context.WithCancel(context.Background())
	s.http = &http.Server{
		Handler:           newGuard(s.key, l.Addr(), s.routes()),
		ReadHeaderTimeout: readTime,
		BaseContext:       func(net.Listener) context.Context { return s.ctx },
	}
	return s, nil
}

// readTime is far more than the head of a request takes on one machine.
const readTime = 5 * time.Second

// openDocument finds the folder and the name of the shot. A link to a shot is
// followed: the folder is that of the file itself.
func openDocument(o Options) (*document, error) {
	name, fresh := o.Shot, o.Shot == ""
	if fresh {
		name = starter.ShotName
	} else {
		real, err := filepath.EvalSymlinks(name)
		if err != nil {
			return nil, noShot(o.Shot, err)
		}
		name = real
	}
	f, err := openFolder(filepath.Dir(name))
	if err != nil {
		return nil, unable("read", filepath.Dir(name), err)
	}
	d := &document{folder: f, name: filepath.Base(name), rig: o.Rig, fresh: fresh}
	if _, err := d.disk(); err != nil {
		return nil, errors.Join(err, f.close())
	}
	return d, nil
}

func noShot(name string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return errors.New("there is no file " + name + "; \"seamrail new\" writes one to start from")
	}
	return unable("read", name, err)
}

// Address is where the page is, with the key behind it: browsers keep what is
// behind # to themselves.
func (s *Server) Address() string {
	return "http://" + s.listens.Addr().String() + "/#k=" + string(s.key)
}

// Opens is the address for a browser that this program opens. It is good once.
func (s *Server) Opens() string {
	return "http://" + s.listens.Addr().String() + "/#once=" + string(s.ticket.word)
}

// Serve serves until Close, and then returns nil.
func (s *Server) Serve() error {
	err := s.http.Serve(s.listens)
	if errors.Is(err, http.ErrServerClosed) {
		return nil
	}
	return err
}

// Close stops a rig that is driven and waits until it rests, then ends every
// stream and the server. A second call does nothing.
func (s *Server) Close() (err error) {
	s.once.Do(func() {
		s.leave()
		s.close()
		err = errors.Join(s.http.Close(), s.doc.close())
	})
	return err
}

// routes are the assets and the questions.
func (s *Server) routes() http.Handler {
	m := http.NewServeMux()
	m.Handle("GET /", site())
	m.HandleFunc("GET /guide/", showGuide)
	m.HandleFunc("GET /api/", nothing)
	m.HandleFunc("POST /api/", nothing)
	m.HandleFunc("GET /api/start", s.start)
	m.HandleFunc("POST /api/key", s.giveKey)
	m.HandleFunc("POST /api/plan", answers(s.plan))
	m.HandleFunc("POST /api/controller", answers(s.controller))
	m.HandleFunc("POST /api/save", answers(s.save))
	m.HandleFunc("POST /api/set-up", answers(s.inSetUp))
	m.HandleFunc("POST /api/watch", s.watch)
	m.HandleFunc("POST /api/preview", s.preview)
	m.HandleFunc("POST /api/spin", answers(s.spin))
	m.HandleFunc("POST /api/fit", answers(s.fit))
	m.HandleFunc("POST /api/cues", answers(s.cues))
	m.HandleFunc("POST /api/sequence", answers(s.sequence))
	m.HandleFunc("POST /api/export", s.export)
	m.HandleFunc("POST /api/make", answers(s.make))
	m.HandleFunc("POST /api/takes", answers(s.takes))
	m.HandleFunc("POST /api/rig/read", answers(s.readRig))
	m.HandleFunc("POST /api/rig/new", answers(s.newRig))
	m.HandleFunc("POST /api/takes/group", answers(s.group))
	m.HandleFunc("POST /api/drive/open", answers(s.openDrive))
	m.HandleFunc("POST /api/drive/wire", s.giveWire)
	m.HandleFunc("POST /api/drive/do", answers(s.do))
	m.HandleFunc("POST /api/drive/beat", answers(s.beat))
	m.HandleFunc("POST /api/drive/stay", s.stay)
	return m
}

// nothing answers what is not asked here, or not so.
func nothing(w http.ResponseWriter, _ *http.Request) {
	refuse(w, http.StatusNotFound, "that is no question of the page")
}
