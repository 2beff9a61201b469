package page

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"os"
	"path"
	"path/filepath"

	"seamrail/cmd/internal/logbook"
)

// nameQuestion is a name for a file beside the shot, as it is typed.
type nameQuestion struct {
	File string `json:"file"`
}

// NameAnswer says what the file would be called, or why it is not.
type NameAnswer struct {
	File  string `json:"file"`
	Wrong string `json:"wrong"`
}

// nameFits looks at a name while it is typed.
func (s *desk) nameFits(q nameQuestion) (NameAnswer, error) {
	file, err := s.doc.free(s.doc.name, q.File)
	if err != nil {
		return NameAnswer{Wrong: err.Error()}, nil
	}
	return NameAnswer{File: file}, nil
}

// free is what a new file beside another is called, if nothing has that name.
func (f folder) free(beside, typed string) (string, error) {
	name, err := newName(beside, typed)
	if err != nil {
		return "", err
	}
	if _, err := f.root.Lstat(filepath.FromSlash(name)); !errors.Is(err, fs.ErrNotExist) {
		return "", nameTaken(name)
	}
	return name, nil
}

func nameTaken(name string) error {
	return refused(http.StatusConflict, fmt.Sprintf("%s is already there, and stays as it is; take another name", name))
}

// saveAsQuestion is a text to be saved under another name.
type saveAsQuestion struct {
	File string `json:"file"`
	Text string `json:"text"`
}

// Moved is where a shot is now.
type Moved struct {
	File     string   `json:"file"`
	Revision string   `json:"revision"`
	With     []string `json:"with"` // what moved with it
}

// saveAs writes a text beside the shot, under a name that nothing has.
func (s *desk) saveAs(q saveAsQuestion) (*Moved, error) {
	name, err := s.doc.free(s.doc.name, q.File)
	if err != nil {
		return nil, err
	}
	return &Moved{name, revision([]byte(q.Text)), []string{}}, s.doc.begin(name, []byte(q.Text))
}

// rename gives the file another name, and with it what belongs to it by its name: its log
// of takes and what was not saved. All of it is renamed or none; at no instant is anything
// under neither name.
func (s *desk) rename(q nameQuestion) (*Moved, error) {
	if s.driven() {
		return nil, refused(http.StatusLocked, "a page drives a rig, and its takes are logged under the name that the shot has; end that first")
	}
	d := s.doc
	d.writing.Lock()
	defer d.writing.Unlock()
	name, err := d.free(d.name, q.File)
	if err != nil {
		return nil, err
	}
	data, err := d.read(d.name)
	if err != nil {
		return nil, err
	}
	hold, err := logbook.Hold(s.shot)
	if err != nil {
		return nil, err
	}
	defer hold.Drop()
	pairs := d.belongings(name)
	if err := d.moveAll(pairs); err != nil {
		return nil, err
	}
	out := &Moved{File: name, Revision: revision(data), With: []string{}}
	for _, p := range pairs[1:] {
		if p[0] == logbook.NameOf(d.name) {
			out.With = append(out.With, path.Base(p[1]))
		}
	}
	return out, nil
}

// belongings are the names of a shot and of what belongs to it that is there, the old and
// the new of each, the shot's first.
func (d *document) belongings(name string) [][2]string {
	out := [][2]string{{d.name, name}}
	if log := logbook.NameOf(d.name); d.has(log) {
		out = append(out, [2]string{log, logbook.NameOf(name)})
	}
	to := &document{name: name}
	for _, draft := range d.draftsIn(path.Dir(d.name))[d.name] {
		_, id, _ := ofDraft(path.Base(draft))
		out = append(out, [2]string{draft, to.draftName(id)})
	}
	return out
}

func (f folder) has(name string) bool {
	_, err := f.root.Lstat(filepath.FromSlash(name))
	return err == nil
}

// moveAll gives files other names. Each has both before the first loses its old one.
func (f folder) moveAll(pairs [][2]string) error {
	for i, p := range pairs {
		if err := f.twin(p[0], p[1]); err != nil {
			for _, done := range pairs[:i] {
				_ = f.remove(done[1])
			}
			return err
		}
	}
	for i := len(pairs) - 1; i >= 0; i-- { // the shot last: it leads to the others
		if err := f.remove(pairs[i][0]); err != nil {
			return f.back(pairs, err)
		}
	}
	return nil
}

// back gives files their old names again, those that have lost them.
func (f folder) back(pairs [][2]string, why error) error {
	for _, p := range pairs {
		if f.has(p[0]) || f.twin(p[1], p[0]) == nil {
			_ = f.remove(p[1])
		}
	}
	return why
}

// twin gives a file a second name, which nothing has; a copy, where the disk has no links.
func (f folder) twin(old, name string) error {
	from, to := filepath.FromSlash(old), filepath.FromSlash(name)
	err := f.root.Link(from, to)
	switch {
	case err == nil:
		return nil
	case errors.Is(err, fs.ErrExist):
		return nameTaken(name)
	}
	return f.copied(from, to, name)
}

func (f folder) copied(from, to, name string) error {
	source, err := f.root.Open(from)
	if err != nil {
		return unable("read", from, err)
	}
	defer func() { _ = source.Close() }()
	mode := fs.FileMode(newMode)
	if info, err := source.Stat(); err == nil {
		mode = info.Mode().Perm()
	}
	file, err := f.root.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	switch {
	case errors.Is(err, fs.ErrExist):
		return nameTaken(name)
	case err != nil:
		return unable("write", name, err)
	}
	_, err = io.Copy(file, source)
	if err == nil {
		err = file.Sync()
	}
	if err = errors.Join(err, file.Close()); err != nil {
		_ = f.root.Remove(to)
		return unable("write", name, err)
	}
	return nil
}
