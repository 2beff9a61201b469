package page

import (
	"bytes"
	"errors"
	"io/fs"
	"net/http"
	"path"
	"reflect"
	"slices"
	"strings"

	"seamrail/cmd/internal/job"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/cue"
	"seamrail/motion/spec/filekind"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// RigBench is the rig of a shot as it can be edited.
type RigBench struct {
	File     string   `json:"file"` // "" where the shot has none in the folder
	Why      string   `json:"why"`  // what keeps it from being edited here
	Text     string   `json:"text"`
	Revision string   `json:"revision"`
	Values   []Value  `json:"values"`
	Takes    []Value  `json:"takes"`
	Files    []string `json:"files"` // rig files of the folder, as the shot sees them
}

// rigFileQuestion asks for the rig of a text.
type rigFileQuestion struct {
	Text string `json:"text"`
}

func (s *desk) rigFile(q rigFileQuestion) (*RigBench, error) {
	d := s.doc
	out := &RigBench{Values: []Value{}, Takes: []Value{}, Files: d.rigFiles()}
	x, _ := d.files().Understand(d.name, []byte(q.Text), nil)
	switch {
	case d.rig != nil:
		out.Why = "The rig was given as the page was opened, in place of the shot's own."
		return out, nil
	case x.RigFile == "":
		out.Why = "The rig stands in the shot itself."
		return out, nil
	}
	err := out.read(d, d.rigName(x))
	return out, err
}

// read fills in what the file of a name has.
func (f *RigBench) read(d *document, name string) error {
	data, err := d.read(name)
	if err != nil {
		f.Why = err.Error()
		return nil
	}
	f.File, f.Text, f.Revision = name, string(data), revision(data)
	raw, _ := rawRig(name, data) // what of it is not understood is told where the shot is planned
	list := lister{list: []Value{}}
	list.table("", reflect.ValueOf(raw))
	marks := map[string]rig.Doubt{}
	for _, m := range rig.Marked(name, data) {
		marks[m.Key] = m
	}
	for _, v := range rigOrder().sorted(ofRig(list.list)) {
		m := marks[v.Path]
		if i := strings.LastIndexByte(v.Path, '['); m.Key == "" && i > 0 {
			m = marks[v.Path[:i]]
		}
		v.Known, v.Why = m.Known.String(), m.Why
		f.Values = append(f.Values, v)
	}
	f.Takes = rigOrder().sorted(ofRig(takesOf(reflect.ValueOf(raw))))
	return nil
}

// benchFile is the rig file of a text, with what is wrong with the text beside it.
type benchFile struct {
	name string
	text []byte
	shot shot.Shot
	own  fault.List
}

// benchOf is that of a text whose rig is in a file of the folder.
func (d *document) benchOf(text string) (benchFile, bool) {
	x, own := d.files().Understand(d.name, []byte(text), nil)
	if d.rig != nil || x.RigFile == "" {
		return benchFile{}, false
	}
	name := d.rigName(x)
	data, err := d.read(name)
	return benchFile{name, data, x, own}, err == nil
}

// faults are those of the shot and of its rig, if that had another text.
func (b benchFile) faults(text []byte) error {
	r, _, wrong := rig.Understand(b.name, text)
	return cue.Beside(append(slices.Clone(b.own), wrong...), b.shot, r).Err()
}

func rawRig(name string, data []byte) (rig.Raw, error) {
	report := &source.Report{File: name}
	var raw rig.Raw
	if doc, ok := source.Parse("", data, report); ok {
		doc.Bind(&raw, report)
	}
	return raw, report.Faults.Err()
}

// rigFiles are the rig files of the folder, as the shot names them.
func (d *document) rigFiles() []string {
	out := []string{}
	all, _ := fs.ReadDir(d.root.FS(), ".")
	for _, e := range all {
		if !e.Type().IsRegular() || path.Ext(e.Name()) != ".toml" {
			continue
		}
		if data, err := d.read(e.Name()); err == nil && filekind.Of(data) == filekind.Rig && path.Dir(d.name) == "." {
			out = append(out, e.Name())
		}
	}
	slices.Sort(out)
	return out
}

// rigEdit asks for changes of the rig file of a shot, or for all of its text.
type rigEdit struct {
	Text     string  `json:"text"` // of the shot
	File     string  `json:"file"`
	Revision string  `json:"revision"`
	Edits    []Edit  `json:"edits"`
	Whole    *string `json:"whole,omitempty"` // as it was before, for Undo
}

// RigWritten is a rig file that was written, and its text before; or what is wrong with a
// change, where nothing was written.
type RigWritten struct {
	Was    string   `json:"was"`
	Rig    RigBench `json:"rig"`
	Faults []Fault  `json:"faults"`
}

// setOnPage is how a value is known that somebody typed, in place of a guess.
const setOnPage = "set on the page"

// editRig writes changes into the rig file of the shot, for all shots that are on it.
// Nothing is written where another program has changed the file meanwhile, where it would
// be no rig, or where the shot could not be planned on it any more.
func (s *desk) editRig(q rigEdit) (*RigWritten, error) {
	d := s.doc
	x, _ := d.files().Understand(d.name, []byte(q.Text), nil)
	if d.rig != nil || x.RigFile == "" || d.rigName(x) != q.File {
		return nil, refused(http.StatusUnprocessableEntity, q.File+" is not the rig of this shot")
	}
	was, err := d.read(q.File)
	if err != nil {
		return nil, err
	}
	if revision(was) != q.Revision {
		return nil, changedMeanwhile(q.File)
	}
	text, err := s.rigWith(q, x, was)
	var no refusal
	switch {
	case errors.As(err, &no):
		return nil, err
	case err != nil:
		text = was
	}
	if err == nil && !bytes.Equal(text, was) {
		if err := d.replace(q.File, was, text); err != nil {
			return nil, err
		}
		s.replaced.Store(revision(was), true)
		d.under.written(q.File, text)
	}
	out := &RigWritten{Was: string(was), Rig: RigBench{Values: []Value{}, Takes: []Value{}, Files: d.rigFiles()}, Faults: []Fault{}}
	if err != nil {
		out.Faults = faultsOf(err)
	}
	return out, out.Rig.read(d, q.File)
}

// replace writes a text in the place of the one that it was made from, if that is still
// there.
func (f folder) replace(name string, was, text []byte) error {
	f.writing.Lock()
	defer f.writing.Unlock()
	now, err := f.read(name)
	if err != nil {
		return err
	}
	if !bytes.Equal(now, was) {
		return changedMeanwhile(name)
	}
	return f.write(name, text)
}

func changedMeanwhile(name string) error {
	return refused(http.StatusConflict, name+" has been changed by another program or page meanwhile; nothing was written")
}

// rigWith is a rig file with the changes made, if it is one and the shot can be planned on it
// as before. One that was none may have faults as before, but no others, and what stood there
// before a change of the page may stand there again.
func (s *desk) rigWith(q rigEdit, x shot.Shot, was []byte) ([]byte, error) {
	text, err := q.applied(was)
	if err != nil {
		return nil, err
	}
	if q.Whole != nil {
		if _, had := s.replaced.Load(revision(text)); had {
			return text, nil
		}
	}
	r, _, wrong := rig.Understand(q.File, text)
	if _, _, had := rig.Understand(q.File, was); len(besides(wrong, had)) > 0 {
		return nil, besides(wrong, had).Err()
	}
	if _, before := s.planned(q.Text); before == nil {
		_, err = job.Plan(x, r, false)
	}
	return text, err
}

// applied is a rig file with the changes made.
func (q rigEdit) applied(text []byte) ([]byte, error) {
	if q.Whole != nil {
		return []byte(*q.Whole), nil
	}
	var err error
	for _, e := range q.Edits {
		switch {
		case e.Do == doRemove:
			text, err = source.Remove(q.File, text, e.Path)
		case e.Value == nil:
			err = refused(http.StatusBadRequest, "a value of a rig is typed")
		case e.Do == doRename:
			text, err = source.Rename(q.File, text, e.Path, *e.Value)
		case e.Do == doMeasure:
			text, err = rig.Hold(q.File, text, e.Path, *e.Value, "it holds the place of what it is")
		case source.Has(text, e.Path):
			text, err = rig.Set(q.File, text, e.Path, *e.Value, setOnPage)
		default:
			text, err = rig.Set(q.File, text, e.Path, *e.Value, "")
		}
		if err != nil {
			return nil, err
		}
	}
	return text, nil
}
