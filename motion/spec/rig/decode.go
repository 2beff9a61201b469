package rig

import (
	"fmt"
	"regexp"
	"sync"
	"unicode/utf8"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/source"
)

// Decode reads a rig file. It returns every default it filled in. The error is
// a fault.List of everything wrong with the file, with lines and columns.
func Decode(file string, data []byte) (Rig, []Default, error) {
	r, defaults, faults := Understand(file, data)
	if err := faults.Err(); err != nil {
		return Rig{}, nil, err
	}
	return r, defaults, nil
}

// Understand is Decode of a rig that may be wrong in places: its axes and stands
// say which of them are not sound. One that could not be read has no axes.
func Understand(file string, data []byte) (Rig, []Default, fault.List) {
	report := &source.Report{File: file}
	var raw Raw
	if !source.Read(data, nil, &raw, report) {
		return Rig{}, nil, report.Faults
	}
	r := raw.Build(report, "")
	r.Doubts = doubts(report, data)
	return r, report.Defaults, report.Faults
}

// Build understands a rig that has been read, alone or inside a shot under
// prefix, such as "rig.". Faults and defaults go to the report; the rig is of
// use only if it has no faults.
func (raw Raw) Build(report *source.Report, prefix string) Rig {
	r := Rig{Name: raw.Rig.Text}
	if !raw.Rig.Set {
		r.Name = "unnamed rig"
		report.Default(prefix+"rig", r.Name, "the rig has no name")
	}
	r.Cautions = raw.cautions(report, prefix+"cautions")
	r.Controller = raw.Controller.build(report, prefix+"controller.")
	if len(raw.Axis) == 0 {
		report.Add(raw.Place, prefix+"axis", "", "is missing", "a rig has at least one axis, such as [axis.rail]")
	}
	for _, name := range source.InOrder(raw.Axis, func(a RawAxis) source.Place { return a.Place }) {
		b := axisBuilder{report, raw.Axis[name], prefix + source.Join("axis", name) + ".", r.Controller.Kind}
		before := report.Wrongs()
		a := b.build(name)
		a.Faulty = report.Wrongs() > before
		r.Axes = append(r.Axes, a)
	}
	r.Stands = raw.stands(report, prefix)
	if r.Controller.Kind.Driven() {
		raw.wired(report, prefix, &r)
	}
	for name, o := range raw.Output {
		if !r.Controller.Kind.Driven() {
			report.Add(o.Place, prefix+source.Join("output", name), "", "is of no use: a "+r.Controller.Kind.String()+" rig is set and started by hand", "leave it out")
		}
	}
	return r
}

// wired reads what axes have to do with the controller that drives them.
func (raw Raw) wired(report *source.Report, prefix string, r *Rig) {
	r.Outputs = raw.outputs(report, prefix, r.Controller)
	raw.letters(report, prefix, r.Controller, r.Axes)
	for i := range r.Axes {
		a := &r.Axes[i]
		raw.Axis[a.Name].homeClash(report, prefix+source.Join("axis", a.Name)+".", r.Controller, *a)
		raw.Axis[a.Name].reports(report, prefix+source.Join("axis", a.Name)+".", r.Controller, a)
	}
}

// What is to be read before each take is short: longer, it is not read.
const (
	maxCautions = 32
	maxCaution  = 400 // characters
)

func (raw Raw) cautions(report *source.Report, path string) []string {
	var out []string
	if n := len(raw.Cautions.Items); n > maxCautions {
		report.Add(raw.Cautions.Place(), path, fmt.Sprintf("(%d of them)", n), fmt.Sprintf("must be at most %d", maxCautions), "nobody reads more before it moves")
		return nil
	}
	for i, c := range raw.Cautions.Items {
		text := plain.Line(c.Text)
		if n := utf8.RuneCountInString(text); n > maxCaution {
			report.Wrong(c, fmt.Sprintf("%s[%d]", path, i+1), fmt.Sprintf("of %d characters must have at most %d", n, maxCaution), "")
			continue
		}
		out = append(out, text)
	}
	return out
}

var axisName = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^[A-Za-z][A-Za-z0-9_-]{0,31}$`)
})

// CheckName reports a name that is unfit for an axis: it has to do as a column
// of a table and in the name of a file.
func CheckName(report *source.Report, at source.Place, path, name string) {
	if !axisName().MatchString(name) {
		report.Add(at, path, "", "must be a letter and then at most 31 letters, digits, - or _", `such as "rail"`)
	}
}
