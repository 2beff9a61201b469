package page

import (
	"context"
	"io/fs"
	"net/http"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"seamrail/motion/base/plain"
	"seamrail/motion/spec/filekind"
)

// Shelf is what the first screen shows of a folder.
type Shelf struct {
	Folder  string    `json:"folder"`
	Version string    `json:"version"`
	Driving bool      `json:"driving"` // a page drives a rig just now
	Shots   []OnShelf `json:"shots"`   // the last changed first
	Left    int       `json:"left"`    // how many more there are
	Rigs    []RigFile `json:"rigs"`
	BuiltIn []BuiltIn `json:"builtIn"` // rigs that can be written beside a shot
}

// OnShelf is a shot of the folder, or what was not saved of one that is gone.
type OnShelf struct {
	File    string `json:"file"`
	Unsaved bool   `json:"unsaved"` // there is something of it that was not saved
	Gone    bool   `json:"gone"`    // there is nothing else of it
}

// shelved is how many shots are listed: more than a first screen is good for.
const shelved = 200

// shelf lists the shots and rigs of the folder and of those in it.
func (s *Server) shelf(struct{}) (Shelf, error) {
	out := Shelf{
		Folder: filepath.Base(absolute(s.folder.root.Name())), Version: s.version, Driving: s.driven(),
		Shots: []OnShelf{}, Rigs: []RigFile{}, BuiltIn: builtIn(),
	}
	for _, file := range s.folder.toml() {
		data, err := s.folder.read(file)
		switch {
		case err != nil:
			continue
		case filekind.Likely(data) == filekind.Shot:
			out.Shots = append(out.Shots, OnShelf{File: file})
		case filekind.Of(data) == filekind.Rig:
			out.Rigs = append(out.Rigs, rigOf(file, data))
		}
	}
	out.Shots = s.folder.withDrafts(out.Shots)
	changed := map[string]int64{}
	for _, x := range out.Shots {
		if info, err := s.folder.root.Stat(filepath.FromSlash(x.File)); err == nil {
			changed[x.File] = info.ModTime().UnixNano()
		}
	}
	slices.SortStableFunc(out.Shots, func(a, b OnShelf) int { return int(min(max(changed[b.File]-changed[a.File], -1), 1)) })
	if out.Left = max(len(out.Shots)-shelved, 0); out.Left > 0 {
		out.Shots = out.Shots[:shelved]
	}
	return out, nil
}

// driven tells whether a page drives a rig, or reads it.
func (s *Server) driven() bool {
	s.driving.mu.Lock()
	defer s.driving.mu.Unlock()
	return s.driving.claim != ""
}

// toml are the files of that ending in the folder and in the folders in it.
func (f folder) toml() []string {
	out := f.tomlIn(".")
	entries, _ := fs.ReadDir(f.root.FS(), ".")
	for _, e := range entries {
		if e.IsDir() && !strings.HasPrefix(e.Name(), ".") {
			out = append(out, f.tomlIn(e.Name())...)
		}
	}
	return out
}

// tomlIn are those of one folder. What is hidden is nobody's shot.
func (f folder) tomlIn(dir string) []string {
	var out []string
	entries, _ := fs.ReadDir(f.root.FS(), dir)
	for _, e := range entries {
		if name := e.Name(); !e.IsDir() && strings.HasSuffix(name, shotEnding) && !strings.HasPrefix(name, ".") {
			out = append(out, path.Join(dir, name))
		}
	}
	return out
}

// Card is what the first screen tells of a shot.
type Card struct {
	Title    string   `json:"title"`
	Text     string   `json:"text"` // as it is on disk, or was not saved where it is not
	Revision string   `json:"revision"`
	Frames   int64    `json:"frames"` // captured
	Seconds  float64  `json:"seconds"`
	Pictured bool     `json:"pictured"` // there is something to draw
	Headline Headline `json:"headline"`
	Faults   []Fault  `json:"faults"` // why there is no plan
}

// card plans a shot for the first screen.
func (s *desk) card(ctx context.Context, _ struct{}) (*Card, error) {
	d, err := s.doc.disk()
	if err != nil {
		if d, err = s.doc.unsaved(err); err != nil {
			return nil, err
		}
	}
	out := &Card{Title: s.titleOf(d.Text), Text: d.Text, Revision: d.Revision, Faults: []Fault{}}
	p, err := s.plannedTo(ctx, d.Text, whole)
	if err != nil {
		out.Faults = faultsOf(err)
		return out, ctx.Err()
	}
	out.Title, out.Frames, out.Seconds = plain.Line(p.Plan.Title), p.Trajectory.Captured(), p.Plan.Loop.OnScreen().Float()
	_, _, pictured := p.Lens()
	out.Pictured, out.Headline = pictured == nil, headlineOf(p.Glanced, verdicts(context.Background(), p, p.Glanced, true))
	return out, nil
}

// titleOf is the title of a text that may be broken, or else the name of its file.
func (s *desk) titleOf(text string) string {
	if x, _ := s.doc.files().Understand(s.doc.name, []byte(text), nil); x.Title != "" {
		return plain.Line(x.Title)
	}
	return strings.TrimSuffix(path.Base(s.doc.name), shotEnding)
}

// firstScreen serves the first screen where the address names no shot and none was opened, or
// where it asks for it.
func (s *Server) firstScreen(site http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.driving.asked()
		asked := r.URL.Query()
		if asked.Has(shelfWord) || s.first == nil && !asked.Has("shot") {
			r = r.Clone(r.Context())
			r.URL.Path = shelfPage
		}
		site.ServeHTTP(w, r)
	})
}

// What the address has behind its ? for the first screen, and the file that this is.
const (
	shelfWord = "shots"
	shelfPage = "/shots.html"
)
