package page

import (
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
)

// What is not saved is kept in a hidden file beside the shot, one for each tab, so that it
// outlives the tab, the browser and this program. Its ending is none that a shot has.
const draftEnding = ".unsaved"

// draftID is what a tab calls itself.
var draftID = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[a-z0-9]{8,24}$`) })

// Draft is what a tab has not saved.
type Draft struct {
	ID       string `json:"id"`
	Text     string `json:"text"`
	Revision string `json:"revision"` // of the file that it was made from
	When     int64  `json:"when"`     // ms since 1970
}

// draftQuestion is what a tab has not saved now; or a draft of another that it has taken
// over, and that goes unless it has become another since.
type draftQuestion struct {
	ID       string `json:"id"`
	Text     string `json:"text"`
	Revision string `json:"revision"`
	Drop     bool   `json:"drop"` // it goes, where it has still this text
}

type keptAnswer struct {
	Kept bool `json:"kept"`
}

// draft keeps what is not saved, or lets it go: where it is what the file has, nothing is
// kept.
func (s *desk) draft(q draftQuestion) (*keptAnswer, error) {
	if !draftID().MatchString(q.ID) {
		return nil, refused(http.StatusBadRequest, "a tab calls itself by 8 to 24 letters and digits")
	}
	d := s.doc
	d.writing.Lock()
	defer d.writing.Unlock()
	name := d.draftName(q.ID)
	now, err := d.disk()
	switch {
	case q.Drop:
		if x, err := d.readDraft(name); err == nil && x.Text == q.Text {
			return &keptAnswer{}, d.remove(name)
		}
		return &keptAnswer{true}, nil
	case err == nil && now.Text == q.Text:
		return &keptAnswer{}, d.remove(name)
	}
	return &keptAnswer{true}, d.write(name, []byte(q.Revision+"\n"+q.Text))
}

// draftName is the file of a draft.
func (d *document) draftName(id string) string {
	dir, base := path.Split(d.name)
	return dir + "." + base + "." + id + draftEnding
}

// ofDraft takes the name of a draft apart.
func ofDraft(base string) (shot, id string, ok bool) {
	rest, hidden := strings.CutPrefix(base, ".")
	rest, ends := strings.CutSuffix(rest, draftEnding)
	i := strings.LastIndexByte(rest, '.')
	if !hidden || !ends || i < 0 || !draftID().MatchString(rest[i+1:]) {
		return "", "", false
	}
	return rest[:i], rest[i+1:], true
}

// readDraft reads a draft: a line with the revision, and the text.
func (f folder) readDraft(name string) (Draft, error) {
	data, err := f.read(name)
	if err != nil {
		return Draft{}, err
	}
	revision, text, _ := strings.Cut(string(data), "\n")
	_, id, _ := ofDraft(path.Base(name))
	out := Draft{ID: id, Text: text, Revision: revision}
	if info, err := f.root.Stat(filepath.FromSlash(name)); err == nil {
		out.When = info.ModTime().UnixMilli()
	}
	return out, nil
}

// draftsIn are the drafts of a folder, by the name of their shot.
func (f folder) draftsIn(dir string) map[string][]string {
	out := map[string][]string{}
	entries, _ := fs.ReadDir(f.root.FS(), dir)
	for _, e := range entries {
		if shot, _, ok := ofDraft(e.Name()); ok && e.Type().IsRegular() {
			shot = path.Join(dir, shot)
			out[shot] = append(out[shot], path.Join(dir, e.Name()))
		}
	}
	return out
}

// drafts are those of the shot, the newest first, less those that the file has by now.
func (d *document) drafts(now Disk) []Draft {
	out := []Draft{}
	for _, name := range d.draftsIn(path.Dir(d.name))[d.name] {
		if x, err := d.readDraft(name); err == nil && (now.Revision == "" || x.Text != now.Text) {
			out = append(out, x)
		}
	}
	slices.SortFunc(out, func(a, b Draft) int { return int(min(max(b.When-a.When, -1), 1)) })
	return out
}

// sweepDrafts takes the drafts away that a text makes needless.
func (d *document) sweepDrafts(text string) {
	for _, name := range d.draftsIn(path.Dir(d.name))[d.name] {
		if x, err := d.readDraft(name); err == nil && x.Text == text {
			_ = d.remove(name)
		}
	}
}

// unsaved stands in for the file of a shot that is not there, if something of it was kept.
func (d *document) unsaved(why error) (Disk, error) {
	if !errors.Is(why, fs.ErrNotExist) {
		return Disk{}, why
	}
	if kept := d.drafts(Disk{}); len(kept) > 0 {
		return Disk{Text: kept[0].Text}, nil
	}
	return Disk{}, fmt.Errorf("there is no file %s in this folder; Shots, above, has those that there are", d.name)
}

// withDrafts marks the shots of which something was not saved, and adds those of which
// there is nothing else.
func (f folder) withDrafts(list []OnShelf) []OnShelf {
	at := map[string]int{}
	dirs := []string{"."}
	for i, x := range list {
		at[x.File] = i
		if dir := path.Dir(x.File); !slices.Contains(dirs, dir) {
			dirs = append(dirs, dir)
		}
	}
	for _, dir := range dirs {
		for shot := range f.draftsIn(dir) {
			if i, there := at[shot]; there {
				list[i].Unsaved = true
			} else if _, err := f.root.Lstat(filepath.FromSlash(shot)); errors.Is(err, fs.ErrNotExist) {
				list = append(list, OnShelf{File: shot, Unsaved: true, Gone: true})
			}
		}
	}
	return list
}

// remove takes a file of the folder away; one that is not there is away already.
func (f folder) remove(name string) error {
	if err := f.root.Remove(filepath.FromSlash(name)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return unable("write", name, err)
	}
	return nil
}
