package page

import (
	"bytes"
	"encoding/json"
	"fmt"
	"mime"
	"net/http"
	"path"
	"path/filepath"
	"strings"
)

// asked answers as a command does.
func (s *Server) asked(command string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		var q struct {
			Text  string            `json:"text"`
			Flags map[string]string `json:"flags"`
		}
		if !ask(w, r, &q) {
			return
		}
		x, m, err := s.doc.decode(q.Text)
		if err != nil {
			fail(w, err)
			return
		}
		out, err := s.core.Ask(command, x, m, q.Flags)
		s.answered(w, out, err)
	}
}

// answered passes on what a command printed: JSON as it is, words as JSON.
func (s *Server) answered(w http.ResponseWriter, out []byte, err error) {
	switch {
	case err != nil:
		fail(w, err)
	case json.Valid(out):
		reply(w, http.StatusOK, json.RawMessage(out))
	default:
		reply(w, http.StatusOK, map[string]string{"text": string(out)})
	}
}

// sequence answers of a sequence file in the folder.
func (s *Server) sequence(w http.ResponseWriter, r *http.Request) {
	var q struct {
		File string `json:"file"`
	}
	if !ask(w, r, &q) {
		return
	}
	if _, err := s.doc.read(q.File); err != nil { // also that it is in the folder
		fail(w, err)
		return
	}
	out, err := s.core.Sequence(filepath.Join(s.doc.root.Name(), filepath.FromSlash(q.File)))
	s.answered(w, out, err)
}

// export answers with a file.
func (s *Server) export(w http.ResponseWriter, r *http.Request) {
	var q struct {
		Text string `json:"text"`
		Form string `json:"form"`
	}
	if !ask(w, r, &q) {
		return
	}
	p, err := s.planned(q.Text)
	if err != nil {
		fail(w, err)
		return
	}
	name, fill, err := p.Export(q.Form)
	if err != nil {
		fail(w, err)
		return
	}
	var b bytes.Buffer // whole or not at all
	if err := fill(&b); err != nil {
		fail(w, err)
		return
	}
	w.Header().Set("Content-Type", kindOf(name))
	w.Header().Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": name}))
	_, _ = w.Write(b.Bytes())
}

// kindOf is the media type of a file that is downloaded. None is shown in the
// page, and so none has to be one that a browser acts on.
func kindOf(name string) string {
	switch path.Ext(name) {
	case ".csv", ".txt", ".ngc", ".vtt":
		return "text/plain; charset=utf-8"
	case ".json", ".otio":
		return "application/json"
	}
	return "application/octet-stream"
}

// make writes everything into a folder beside the shot.
func (s *Server) make(w http.ResponseWriter, r *http.Request) {
	var q struct {
		Text   string `json:"text"`
		Folder string `json:"folder"`
	}
	if !ask(w, r, &q) {
		return
	}
	dir, err := s.doc.below(q.Folder)
	if err != nil {
		fail(w, err)
		return
	}
	p, err := s.planned(q.Text)
	if err != nil {
		fail(w, err)
		return
	}
	words, err := p.Make(dir)
	if err != nil {
		fail(w, err)
		return
	}
	reply(w, http.StatusOK, map[string]string{"folder": q.Folder, "text": words})
}

// below makes a folder in the folder of the shot, if need be, and returns where
// it is. One that is a link to elsewhere is refused by the system.
func (f folder) below(name string) (string, error) {
	local, err := inside(name)
	if err != nil {
		return "", err
	}
	if local == "." || strings.ContainsRune(name, 0) {
		return "", fmt.Errorf("name a folder beside the shot, such as \"loop\"")
	}
	if err := f.root.MkdirAll(local, 0o777); err != nil {
		return "", unable("write", name, err)
	}
	sub, err := f.root.OpenRoot(local) // through no link that leads out
	if err != nil {
		return "", unable("write", name, err)
	}
	return filepath.Join(f.root.Name(), local), sub.Close()
}

// takes lists the takes of the shot, and marks one if asked to.
func (s *Server) takes(w http.ResponseWriter, r *http.Request) {
	var q struct {
		Mark *TakeMark `json:"mark"`
	}
	if !ask(w, r, &q) {
		return
	}
	list, err := s.core.Takes(q.Mark)
	if err != nil {
		fail(w, err)
		return
	}
	reply(w, http.StatusOK, map[string][]Take{"takes": list})
}
