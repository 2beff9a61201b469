package page

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"strings"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/plain"
	"seamrail/motion/spec/filekind"
	"seamrail/motion/spec/shot"
)

// noRig is the fault of a shot whose rig cannot be read, where the shot names it, with the
// rigs that are there instead.
func (d *document) noRig(s shot.Shot, name string, err error) fault.List {
	f := fault.Fault{File: cmp.Or(s.RigFrom, d.name), Quantity: "rig.file", Value: fmt.Sprintf("%q", s.RigFile), Bound: err.Error()}
	if raw := s.Raw(); raw.Rig != nil {
		f.Line, f.Column = raw.Rig.File.Line, raw.Rig.File.Column
	}
	if !errors.Is(err, fs.ErrNotExist) {
		return fault.List{f}
	}
	f.Bound = "is not there"
	if near := d.rigsBeside(name); len(near) > 0 {
		f.Fit = "in its folder there is " + strings.Join(near, ", ") + "; or "
	}
	f.Fit += "put the rig's file there, and it is planned at once"
	return fault.List{f}
}

// rigsBeside are the rig files of the folder in which one is missing.
func (d *document) rigsBeside(name string) []string {
	var out []string
	for _, file := range d.tomlIn(path.Dir(name)) {
		if data, err := d.read(file); err == nil && filekind.Of(data) == filekind.Rig {
			out = append(out, plain.Text(path.Base(file)))
		}
	}
	return out
}
