package page

import (
	"context"
	"errors"
	"io/fs"
	"net"
	"net/http"
	"os/exec"
	"path/filepath"
	"sync"
	"time"

	"seamrail/cmd/internal/film/decoder"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/session"
	"seamrail/motion/spec/rig"
)

// loopback is where the page is served: no other machine can reach it.
const loopback = "127.0.0.1"

const apiPath = "/api/"

// Options says which shot the page is about.
type Options struct {
	Shot    string   // file name; "" for the first screen, with the shots of this folder
	Rig     *rig.Rig // in place of the one the shot names; nil for that one
	Version string
	// Printed is told the address that opens the page where the one before was opened;
	// nil for nobody.
	Printed func(address string)
}

// Server is the page of the shots of one folder.
type Server struct {
	version string
	connect func(d *desk, p *job.Job, o session.Options) (*run, error)
	folder  folder
	rig     *rig.Rig // in place of those that shots name; nil for these
	first   *desk    // of the shot that it was opened with; nil for the first screen
	desks   desks
	key     key
	tickets *tickets
	printed func(address string)
	listens net.Listener
	curves  []Curve
	hub     hub
	stage   stage
	driving driving
	wire    wire
	film    cinema
	decoder decoder.Lookup // finds what decodes films

	ctx   context.Context // ends with the server, and with it every stream
	close context.CancelFunc
	http  *http.Server
	once  sync.Once
}

// Open listens on a free port of this machine. Close it.
func Open(o Options) (*Server, error) {
	f, name, err := openShot(o.Shot)
	if err != nil {
		return nil, err
	}
	l, err := net.Listen("tcp4", net.JoinHostPort(loopback, "0"))
	if err != nil {
		return nil, errors.Join(err, f.close())
	}
	s := &Server{version: o.Version, folder: f, rig: o.Rig, key: newKey(), tickets: newTickets(time.Now), listens: l, curves: lawCurves(), connect: (*desk).onRig, decoder: exec.LookPath}
	s.desks.open = map[string]*desk{}
	if name != "" {
		s.first = s.deskOf(name)
		s.first.shot = o.Shot
		s.desks.open[name] = s.first
	}
	if s.printed = o.Printed; s.printed == nil {
		s.printed = func(string) {}
	}
	s.stage.news, s.stage.state, s.stage.version = s.hub.wake, NewDriveState(), 1
	s.ctx, s.close = context.WithCancel(context.Background())
	s.http = usual.server(newGuard(s.key, l.Addr(), usual.around(s.routes())))
	s.http.BaseContext = func(net.Listener) context.Context { return s.ctx }
	return s, nil
}

// openShot finds the folder and the name of the shot; without one, this folder. A link to
// a shot is followed: the folder is that of the file itself.
func openShot(file string) (f folder, name string, err error) {
	dir := "."
	if file != "" {
		real, err := filepath.EvalSymlinks(file)
		if err != nil {
			return f, "", noShot(file, err)
		}
		dir, name = filepath.Split(real)
		dir = filepath.Clean(dir)
	}
	if f, err = openFolder(dir); err != nil {
		return f, "", unable("read", dir, err)
	}
	if name == "" {
		return f, "", nil
	}
	if _, err := f.read(name); err != nil {
		return f, "", errors.Join(err, f.close())
	}
	return f, name, nil
}

func noShot(name string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return errors.New("there is no file " + name + "; \"seamrail new\" writes one to start from, and \"seamrail page\" alone begins one by hand and eye")
	}
	return unable("read", name, err)
}

// Serve serves until Close, and then returns nil.
func (s *Server) Serve() error {
	err := s.http.Serve(usual.doorway(s.listens))
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
		err = errors.Join(s.http.Close(), s.folder.close())
		s.film.close()
	})
	return err
}

// routes are the assets and the questions.
func (s *Server) routes() http.Handler {
	m := http.NewServeMux()
	m.HandleFunc("GET /", showPage)
	m.Handle("GET /{$}", s.firstScreen(http.HandlerFunc(showPage)))
	m.HandleFunc("GET "+assetPath, showAsset)
	m.HandleFunc("POST /api/shelf", answers(s.shelf))
	m.HandleFunc("POST /api/kinds", answers(s.kinds))
	m.HandleFunc("POST /api/kind", answersUntil(s.kind))
	m.HandleFunc("POST /api/kind/picture", s.kindPicture)
	m.HandleFunc("POST /api/begin", answers(s.begin))
	m.HandleFunc("POST /api/card", untilGone(s, (*desk).card))
	m.HandleFunc("POST /api/name", onDesk(s, (*desk).nameFits))
	m.HandleFunc("POST /api/save-as", onDesk(s, (*desk).saveAs))
	m.HandleFunc("POST /api/rename", onDesk(s, (*desk).rename))
	m.HandleFunc("POST /api/draft", onDesk(s, (*desk).draft))
	m.HandleFunc("GET /guide/", showGuide)
	m.HandleFunc("GET /api/", nothing)
	m.HandleFunc("POST /api/", nothing)
	m.HandleFunc("GET /api/start", s.desked((*desk).start))
	m.HandleFunc("POST /api/key", s.giveKey)
	m.HandleFunc("POST /api/apart", answers(s.apart))
	m.HandleFunc("POST /api/window", answers(s.giveWindow))
	m.HandleFunc("POST /api/plan", untilGone(s, (*desk).plan))
	m.HandleFunc("POST /api/controller", untilGone(s, (*desk).controller))
	m.HandleFunc("POST /api/save", onDesk(s, (*desk).save))
	m.HandleFunc("POST /api/set-up", onDesk(s, (*desk).inSetUp))
	m.HandleFunc("POST /api/watch", s.desked((*desk).watch))
	m.HandleFunc("POST /api/preview", s.desked((*desk).preview))
	m.HandleFunc("POST /api/spin", untilGone(s, (*desk).spin))
	m.HandleFunc("POST /api/fit", untilGone(s, (*desk).fit))
	m.HandleFunc("POST /api/cues", onDesk(s, (*desk).cues))
	m.HandleFunc("POST /api/sequence", untilGone(s, (*desk).sequence))
	m.HandleFunc("POST /api/export", s.desked((*desk).export))
	m.HandleFunc("POST /api/make", untilGone(s, (*desk).make))
	m.HandleFunc("POST /api/takes", onDesk(s, (*desk).takes))
	m.HandleFunc("POST /api/rig/read", onDesk(s, (*desk).readRig))
	m.HandleFunc("POST /api/rig/new", onDesk(s, (*desk).newRig))
	m.HandleFunc("POST /api/rig/file", onDesk(s, (*desk).rigFile))
	m.HandleFunc("POST /api/rig/edit", onDesk(s, (*desk).editRig))
	m.HandleFunc("POST /api/takes/group", onDesk(s, (*desk).group))
	m.HandleFunc("POST /api/film/begin", answers(s.beginFilm))
	m.HandleFunc("POST /api/film/bytes", s.takeBytes)
	m.HandleFunc("POST /api/film/look", s.lookFilm)
	m.HandleFunc("POST /api/film/lay", untilGone(s, (*desk).layFilm))
	m.HandleFunc("POST /api/film/pictures", s.filmPictures)
	m.HandleFunc("POST /api/film/accept", onDesk(s, (*desk).acceptFilm))
	m.HandleFunc("POST /api/film/keep", onDesk(s, (*desk).keepFilm))
	m.HandleFunc("POST /api/film/drop", answers(s.dropFilm))
	m.HandleFunc("POST /api/drive/open", onDesk(s, (*desk).openDrive))
	m.HandleFunc("POST /api/drive/wire", s.giveWire)
	m.HandleFunc("POST /api/drive/do", onDesk(s, (*desk).do))
	m.HandleFunc("POST /api/drive/beat", answers(s.beat))
	m.HandleFunc("POST /api/drive/again", answers(s.again))
	m.HandleFunc("POST /api/drive/stop", answers(s.stop))
	m.HandleFunc("POST /api/drive/stay", s.stay)
	m.HandleFunc("POST /api/drive/watch", s.watchDrive)
	return m
}

// nothing answers what is not asked here, or not so.
func nothing(w http.ResponseWriter, _ *http.Request) {
	refuse(w, http.StatusNotFound, "that is no question of the page")
}
