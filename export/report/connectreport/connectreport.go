// Package connectreport tells what answers at a port, what it says of itself, and how
// each line of the rig file that is made of it is known.
package connectreport

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"seamrail/export/report"
	"seamrail/motion/base/list"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/rig/rigfile"
)

// Schema names the layout of the JSON report. It changes when a key changes its
// meaning or goes; keys may be added.
const Schema = "seamrail-connect/1"

// Data is what there is to tell.
type Data struct {
	Board   rigfile.Board
	Lines   []rig.Doubt // of the rig file, with their marks
	File    string      // that was written; "" = none
	Against string      // the rig file that it was compared with; "" = none
	Differs []rigfile.Difference
}

// Document is the JSON report.
type Document struct {
	Schema      string       `json:"schema"`
	From        string       `json:"from"`
	Kind        string       `json:"kind"`
	Because     []string     `json:"because"` // what tells the kind
	Baud        int          `json:"baud"`
	Greeting    string       `json:"greeting"` // "" where it says nothing unasked
	Said        []string     `json:"said"`     // of itself, as it says it
	State       string       `json:"state"`    // "" where it reports none
	Alarm       bool         `json:"alarm"`
	Settings    []Setting    `json:"settings"` // as it prints them, by name
	Notes       []string     `json:"notes"`    // what to mind
	Lines       []Line       `json:"lines"`
	File        string       `json:"file"`        // that was written; "" for none
	Against     string       `json:"against"`     // the rig file that it was compared with; "" for none
	Differences []Difference `json:"differences"` // from that
}

// Setting is one that the controller prints.
type Setting struct {
	Name  string  `json:"name"`
	Value float64 `json:"value"`
}

// Line is a value of the rig file.
type Line struct {
	Key   string `json:"key"`   // the header of an axis where the question is which it is
	Value string `json:"value"` // "" of a header
	Known string `json:"known"` // "read", "guessed" or "to be measured"
	Why   string `json:"why"`
}

// Difference is a value of a rig file that is not what the controller says.
type Difference struct {
	Key        string `json:"key"`
	File       string `json:"file"`
	Controller string `json:"controller"`
	Line       int    `json:"line"` // of the file; 0 where it leaves the key out
}

// Facts tells it to programs: a Document.
func (d Data) Facts() any {
	b := d.Board
	return Document{
		Schema: Schema, From: b.From, Kind: b.Kind.String(), Because: report.List(b.Because), Baud: b.Baud, Greeting: b.Greeting,
		Said: report.List(b.Said), State: b.State, Alarm: b.Alarm, Notes: report.List(rigfile.Notes(b)),
		Settings: report.Each(slices.Sorted(maps.Keys(b.Settings)), func(name string) Setting { return Setting{name, b.Settings[name]} }),
		Lines:    report.Each(d.Lines, func(l rig.Doubt) Line { return Line{l.Key, l.Value, l.Known.String(), l.Why} }),
		File:     d.File, Against: d.Against,
		Differences: report.Each(d.Differs, func(x rigfile.Difference) Difference { return Difference(x) }),
	}
}

// Report tells it to people.
func (d Data) Report() report.Report {
	var r report.Report
	b := d.Board
	r.Title = fmt.Sprintf("A %s controller answers at %d baud: %s", b.Kind, b.Baud, b.From)
	r.Named("controller", "WHAT ANSWERS")
	r.Fields("known by", b.Because)
	r.Field("greeting", b.Greeting)
	r.Field("state", b.State)
	r.Fields("it says", b.Said)
	r.Bullets(report.Fair, "!", rigfile.Notes(b)...)
	if d.Against != "" {
		d.compared(&r)
	}
	d.known(&r, rig.Read, "read", "READ FROM IT")
	d.known(&r, rig.Guessed, "guessed", "GUESSED: LOOK IT UP, OR TRY IT")
	d.known(&r, rig.ToMeasure, "measure", "TO BE MEASURED: A RULER, A SCALE OR YOU HAVE TO TELL")
	r.Named("", "")
	r.Add(report.Note{Text: d.next()})
	return r
}

// compared tells what is not as a rig file says.
func (d Data) compared(r *report.Report) {
	r.Named("differences", "AGAINST "+d.Against)
	if len(d.Differs) == 0 {
		r.Bullets(report.Good, "+", "all that the controller tells is as the file says")
	}
	for _, x := range d.Differs {
		at := d.Against
		if x.Line > 0 {
			at = fmt.Sprintf("%s:%d", d.Against, x.Line)
		}
		r.Bullets(report.Poor, "x", at+": "+x.String())
	}
}

// known tells the lines that are known in one way: those that are to be measured one by
// one, the others, which are many, together and without what settings are called.
func (d Data) known(r *report.Report, k rig.Known, name, title string) {
	lines := slices.DeleteFunc(slices.Clone(d.Lines), func(l rig.Doubt) bool { return l.Known != k || strings.Contains(l.Key, "reports.") })
	if len(lines) == 0 {
		return
	}
	r.Named(name, title)
	for _, part := range byTable(lines) {
		text := func(l rig.Doubt) string {
			short := cmp.Or(strings.TrimPrefix(strings.TrimPrefix(l.Key, part.table), "."), l.Key)
			switch {
			case l.Value == "":
				return l.Why
			case k == rig.ToMeasure:
				return short + ": " + l.Why
			}
			return short + " " + l.Value
		}
		if k == rig.ToMeasure {
			r.Fields(part.table, list.Map(part.lines, text))
		} else {
			r.Field(part.table, strings.Join(list.Map(part.lines, text), ", "))
		}
	}
}

// table is lines of the rig file that stand under one header.
type table struct {
	table string
	lines []rig.Doubt
}

// byTable puts lines under the tables that they are of, in the order of the file.
func byTable(lines []rig.Doubt) []table {
	var out []table
	for _, l := range lines {
		name := "rig"
		if a := l.Axis(); a != "" {
			name = "axis." + a
		} else if strings.HasPrefix(l.Key, "controller.") {
			name = "controller"
		}
		if n := len(out); n == 0 || out[n-1].table != name {
			out = append(out, table{table: name})
		}
		out[len(out)-1].lines = append(out[len(out)-1].lines, l)
	}
	return out
}

// next is what to do now.
func (d Data) next() string {
	if d.File == "" {
		return "Nothing moved, and no file was written: -o bench.toml writes the rig file, with every line marked as here."
	}
	return fmt.Sprintf("Wrote %s. Nothing moved. Answer its questions, line by line; every plan with --rig %s names those that are left.", d.File, d.File)
}
