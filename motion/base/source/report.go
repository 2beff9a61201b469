package source

import (
	"cmp"
	"strings"

	"seamrail/motion/base/fault"
)

// Report gathers everything wrong with a document and every default filled,
// so that one reading tells all.
type Report struct {
	File     string
	Faults   fault.List
	Defaults []Default
	// Partial is set where a file that belongs to the document could not be read: what
	// is missing may stand there, and is not told.
	Partial bool

	wrongs int
}

// maxFaults is as many as anyone reads. It also bounds what a hostile file can
// make of one.
const maxFaults = 100

// Add records a fault at a place. The path is the dotted key, such as
// "axis.rail.from"; an axis in it is named apart. Where a fault has been
// recorded for the value itself, nothing is added.
func (r *Report) Add(at Place, path, value, bound, fit string) {
	r.wrongs++
	if at.reported || r.full() || r.Partial && bound == isMissing {
		return
	}
	if len(r.Faults) == maxFaults {
		r.Faults = append(r.Faults, fault.Fault{File: r.File, Quantity: "the file", Bound: "has more wrong with it than is listed here"})
		return
	}
	f := fault.Fault{File: cmp.Or(at.File, r.File), Line: at.Line, Column: at.Column, Value: value, Bound: bound, Fit: fit}
	if at.Origin != "" {
		f.File, f.Line, f.Column = at.Origin, 0, 0
	}
	f.Axis, f.Quantity = split(path)
	r.Faults = append(r.Faults, f)
}

// Unsound records that something cannot be made of what was read, for a reason that is
// told elsewhere.
func (r *Report) Unsound() { r.wrongs++ }

// Found records what is wrong with another file that the document names.
func (r *Report) Found(faults fault.List) {
	r.wrongs += len(faults)
	r.Faults = append(r.Faults, faults...)
}

// isMissing is said of a key that is not there.
const isMissing = "is missing"

// Wrongs counts what was found wrong, that which went without saying too: what is
// built while it grows is not sound.
func (r *Report) Wrongs() int { return r.wrongs }

func (r *Report) full() bool { return len(r.Faults) > maxFaults }

// Wrong records that the value t of the key at path breaks a bound, and what
// would fit.
func (r *Report) Wrong(t Text, path, bound, fit string) {
	r.Add(t.Place(), path, t.Quoted(), bound, fit)
}

// Missing records that a key is not there; example is what it could be.
func (r *Report) Missing(at Place, path, example string) {
	r.Add(at, path, "", isMissing, "give it, such as "+leaf(path)+" = "+example)
}

// Default records a value that was filled in.
func (r *Report) Default(path, value, why string) {
	r.Defaults = append(r.Defaults, Default{path, value, why})
}

func leaf(path string) string { return path[strings.LastIndexByte(path, '.')+1:] }

// Fail records what a parser said of the value t, which err already names. Err
// may begin with the last part of the path.
func (r *Report) Fail(t Text, path string, err error) {
	r.Add(t.Place(), path, "", strings.TrimPrefix(err.Error(), leaf(path)+" "), "")
}
