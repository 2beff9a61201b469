package setup

import (
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/spec/filekind"
	"seamrail/motion/spec/shot"
)

// Found is a file that another one names.
type Found struct {
	Name string // as faults have it
	Same string // what tells it from every other file, however it is named; "" for its name
	Data []byte
}

// Files says how what lies under a shot is found.
type Files struct {
	// Open finds the file that is called name in the file from. It is asked for each
	// name once.
	Open func(from, name string) (Found, error)
	// Under are the set-ups of a shot that names none, as a sequence has them, with
	// their places in it.
	Under source.Texts
	// Beside reads what the shot itself names besides; nil where Open finds that too.
	Beside source.Beside
}

// beside reads what a shot names.
func (f Files) beside(file string) source.Beside {
	if f.Beside != nil {
		return f.Beside
	}
	return func(name string) ([]byte, error) {
		found, err := f.Open(file, name)
		return found.Data, err
	}
}

// Decode reads a shot with what lies under it. The error is a fault.List of everything
// wrong, sorted, each with the file, line and column that it stands at.
func (f Files) Decode(file string, data []byte, over []source.Override) (shot.Shot, error) {
	s, faults := f.Understand(file, data, over)
	if err := faults.Err(); err != nil {
		return shot.Shot{}, err
	}
	return s, nil
}

// Understand is Decode of a shot that may be wrong in places, as shot.Understand is.
func (f Files) Understand(file string, data []byte, over []source.Override) (shot.Shot, fault.List) {
	report := &source.Report{File: file}
	doc, ok := source.Parse("", data, report)
	if !ok {
		return shot.Shot{File: file}, report.Faults
	}
	g := gatherer{open: remembered(f.Open), beside: f.beside(file), file: file, doc: doc, names: f.Under}
	if own := doc.Top(setupKey, report); own.Set {
		g.names = own
	}
	if len(report.Faults) > 0 {
		g.wrong = report.Faults
	}
	return g.understood(over)
}

const setupKey = "setup"

// gatherer lays a shot over what lies under it.
type gatherer struct {
	open   func(from, name string) (Found, error)
	beside source.Beside
	file   string
	doc    *source.Doc // the shot itself
	names  source.Texts
	wrong  fault.List // with the shot itself so far
}

// understood is the shot with values in the place of its own.
func (g gatherer) understood(over []source.Override) (shot.Shot, fault.List) {
	report := &source.Report{File: g.file, Faults: append(fault.List(nil), g.wrong...)}
	x := newPile(g.open, g.file, report)
	below := x.setUps(g.names, []link{{g.file, g.file}})
	doc := x.layers.Over(g.doc, below)
	doc.Put(over, report)
	doc = x.layers.Shelve(doc, x.shelf)
	s, faults := shot.Of(doc, report, over, g.beside, func(more []source.Override) (shot.Shot, error) {
		s, faults := g.understood(append(append([]source.Override(nil), over...), more...))
		return s, faults.Err()
	})
	if len(x.files) > 0 {
		s.Laid = shot.Laid{Files: x.files, Values: x.layers.Leaves(doc), Home: x.home(doc), Own: func(path string) (string, bool) { return doc.Own(g.doc, path) }, Set: func(text []byte, path, value string) ([]byte, error) {
			return source.SetOver(g.file, text, doc, g.doc, path, value)
		}}
	}
	return s, once(faults)
}

// home finds where the values of the shot stand.
func (x *pile) home(doc *source.Doc) func(path string) (file, local string) {
	return func(path string) (file, local string) {
		if i, local := doc.Home(path, x.docs); i >= 0 {
			return x.files[i].Name, local
		}
		return "", ""
	}
}

// once leaves out what is told of a place in a file under the shot a second time: it is
// looked at by itself, and again with all that lies over it.
func once(faults fault.List) fault.List {
	type place struct {
		file         string
		line, column int
		axis, what   string
	}
	seen := map[place]bool{}
	var out fault.List
	for _, f := range faults {
		at := place{f.File, f.Line, f.Column, f.Axis, f.Quantity}
		if f.Line > 0 && seen[at] {
			continue
		}
		seen[at] = true
		out = append(out, f)
	}
	return out
}

// remembered asks for each file once.
func remembered(open func(from, name string) (Found, error)) func(from, name string) (Found, error) {
	type answer struct {
		found Found
		err   error
	}
	known := map[[2]string]answer{}
	return func(from, name string) (Found, error) {
		key := [2]string{from, name}
		a, ok := known[key]
		if !ok {
			a.found, a.err = open(from, name)
			if a.found.Same == "" {
				a.found.Same = a.found.Name
			}
			known[key] = a
		}
		return a.found, a.err
	}
}

// kinds are the files of a shelf, by the key that names one.
var kinds = map[string]struct {
	kind filekind.Kind
	own  any // what such a file says
	like func() any
}{
	"camera": {filekind.Camera, &shot.RawBody{}, func() any { return &RawCamera{} }},
	"lens":   {filekind.Lens, &shot.RawGlass{}, func() any { return &RawLens{} }},
	"lamp":   {filekind.Lamp, &shot.RawBulb{}, func() any { return &RawLamp{} }},
}
