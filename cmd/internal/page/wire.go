package page

import (
	"bytes"
	"errors"
	"io"
	"mime"
	"net/http"
	"strings"
	"sync"

	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/session"
	"seamrail/export/drive/wirelog"
	"seamrail/motion/base/list"
	"seamrail/motion/spec/shot"
)

// wire is the record of the last run that kept one, until another is begun.
type wire struct {
	mu   sync.Mutex
	name string // of the shot
	text []byte
}

func (w *wire) set(name string, text []byte) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.name, w.text = name, text
}

func (w *wire) get() (name string, text []byte) {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.name, w.text
}

// errOtherRig is why a run of a page that was opened on another rig than the shot's keeps
// no record: it could not be played back.
var errOtherRig = errors.New("a record needs the rig file, and this page was opened with another rig than the shot names; \"seamrail drive --keep-wire\" keeps it")

// keepWire has a run of a text keep what goes over its wire, to be downloaded.
func (s *desk) keepWire(text string, p *job.Job) (*session.Wire, error) {
	if s.doc.rig != nil {
		return nil, errOtherRig
	}
	files := []wirelog.File{{Name: s.doc.name, Text: []byte(text)}}
	besides := list.Map(p.Shot.Laid.Files, func(f shot.LaidFile) string { return f.Name })
	if song := p.Shot.Music.List; song != "" {
		besides = append(besides, song)
	}
	for _, name := range besides {
		data, err := s.doc.read(name)
		if err != nil {
			return nil, err
		}
		files = append(files, wirelog.File{Name: name, Text: data})
	}
	if name := s.doc.rigName(p.Shot); name != "" {
		data, err := s.doc.read(name)
		if err != nil {
			return nil, err
		}
		files = append(files, wirelog.File{Name: name, Text: data})
	}
	s.wire.set(s.doc.name, nil)
	return &session.Wire{Words: []string{"drive", s.doc.name}, Files: files, Save: s.saveWire}, nil
}

// saveWire keeps a record, and tells the page that it is there.
func (s *desk) saveWire(write func(io.Writer) error) error {
	var b bytes.Buffer
	err := write(&b)
	if err == nil {
		s.wire.set(s.doc.name, b.Bytes())
		s.stage.change(func(d *DriveState) { d.Wire = true })
	}
	return err
}

// giveWire answers with the record of the last run that kept one.
func (s *Server) giveWire(w http.ResponseWriter, r *http.Request) {
	if !ask(w, r, &struct{}{}) {
		return
	}
	name, text := s.wire.get()
	if text == nil {
		refuse(w, http.StatusNotFound, "no run has kept its wire, or it has not let go of the rig yet")
		return
	}
	name = strings.TrimSuffix(name, ".toml") + ".wire"
	w.Header().Set("Content-Type", kindOf(".txt"))
	w.Header().Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": name}))
	_, _ = w.Write(text)
}
