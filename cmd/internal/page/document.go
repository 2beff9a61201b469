package page

import (
	"cmp"
	"errors"
	"io/fs"
	"net/http"
	"path"
	"path/filepath"

	"seamrail/motion/base/fault"
	"seamrail/motion/cue"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// document is the shot file, which stays the truth.
type document struct {
	folder
	name  string // within the folder
	rig   *rig.Rig
	under under
}

// Disk is what the file holds.
type Disk struct {
	Text     string `json:"text"`
	Revision string `json:"revision"` // "" where there is no file
}

// disk reads the file.
func (d *document) disk() (Disk, error) {
	data, err := d.read(d.name)
	if err != nil {
		return Disk{}, err
	}
	return Disk{string(data), revision(data)}, nil
}

// errChanged is a file that has another text than the page believes.
var errChanged = errors.New("the file has been changed on disk meanwhile; nothing was written")

// save writes a text where the file is still at a revision. Where it is not, it
// returns what the file holds, and errChanged.
func (d *document) save(text, base string) (Disk, error) {
	d.writing.Lock()
	defer d.writing.Unlock()
	now, err := d.disk()
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return now, err
	}
	if err == nil && now.Revision != base && now.Text != text {
		return now, errChanged
	}
	if err := d.write(d.name, []byte(text)); err != nil {
		return Disk{}, err
	}
	d.sweepDrafts(text)
	return Disk{text, revision([]byte(text))}, nil
}

// decode understands a text: the shot, its rig and what was filled in. What lies under it is
// watched from then on.
func (d *document) decode(text string) (shot.Shot, rig.Rig, error) {
	var under []string
	s, faults := d.noting(&under).Understand(d.name, []byte(text), nil)
	r, wrong, err := d.rigOf(&s)
	if name := d.rigName(s); name != "" && d.rig == nil {
		under = append(under, name)
	}
	d.under.are(under)
	faults = append(faults, wrong...)
	return s, r, errors.Join(cue.Beside(faults, s, r).Err(), err)
}

// rigOf is the rig of a shot, and what is wrong with its file. A shot that does
// not say which has none.
func (d *document) rigOf(s *shot.Shot) (rig.Rig, fault.List, error) {
	switch {
	case d.rig != nil:
		return *d.rig, nil, nil
	case s.Rig != nil:
		return *s.Rig, nil, nil
	case s.RigFile == "":
		return rig.Rig{}, nil, nil
	}
	name := d.rigName(*s)
	data, err := d.read(name)
	if err != nil {
		return rig.Rig{}, d.noRig(*s, name, err), nil
	}
	r, filled, faults := rig.Understand(name, data)
	s.Defaults = append(s.Defaults, filled...)
	return r, faults, nil
}

// rigName is the name within the folder of the rig that a shot names, "" where it names
// none.
func (d *document) rigName(s shot.Shot) string {
	if s.RigFile == "" {
		return ""
	}
	return beside(cmp.Or(s.RigFrom, d.name), s.RigFile)
}

// beside is the name within the folder of a file that another one names.
func beside(from, name string) string {
	if filepath.IsAbs(name) {
		return name // which no folder has
	}
	return path.Join(path.Dir(from), filepath.ToSlash(name))
}

// conflict is the answer where the file has another text than the page knew.
type conflict struct {
	Error string `json:"error"`
	Disk
}

// saved is what the file has now.
type saved struct {
	Revision string `json:"revision"`
}

func (s *desk) save(q Disk) (saved, error) {
	d, err := s.doc.save(q.Text, q.Revision)
	if errors.Is(err, errChanged) {
		err = refusal{http.StatusConflict, conflict{err.Error(), d}}
	}
	return saved{d.Revision}, err
}
