// Package indexpage is the page that opens a folder of exports in a browser: the
// report of its plan, with the files of the folder in it.
package indexpage

import (
	"path"
	"slices"
	"strings"

	"seamrail/export/report"
)

// Page is what the page shows.
type Page struct {
	Plan    report.Report // its first section is the verdict
	Forced  bool          // the folder was written although the plan does not hold
	Files   []File        // in the order they are listed in
	LeftOut []LeftOut
}

// LeftOut are files that are not there, and a sentence that says why.
type LeftOut struct {
	Names []string
	Why   string
}

// File is one file of the folder.
type File struct {
	Name, Purpose string
}

// Report is that of the plan with the folder in it, after the verdict.
// Pictures and sounds among the files are shown; of a picture that is there in
// several forms, the one that can be enlarged.
func (p Page) Report() report.Report {
	r, verdict := p.Plan, slices.Clone(p.Plan.Sections[0].Blocks)
	if p.Forced {
		verdict = slices.Insert(verdict, 1, report.Block(report.Bullet{
			Tone: report.Poor, Mark: "x", Text: "Written because it was forced: do not run it as it is.",
		}))
	}
	r.Sections = []report.Section{{Blocks: verdict}}
	r.Bullets(report.Fair, "!", "A stop in software is not an emergency stop: have a switch that cuts motor power within reach.")
	r.Section("FILES")
	t := report.Table{Columns: []report.Column{{Files: true}, {}}}
	for _, f := range p.Files {
		t.Rows = append(t.Rows, report.Row{Cells: []string{f.Name, f.Purpose}})
	}
	r.Add(t)
	for _, l := range p.LeftOut {
		r.Add(report.Note{Text: "Left out: " + strings.Join(l.Names, ", ") + ". " + l.Why})
	}
	r.Section("PICTURES")
	for _, f := range pictures(p.Files) {
		r.Add(report.Figure{File: f.Name, Alt: f.Purpose})
	}
	r.Section("SOUND")
	for _, f := range p.Files {
		if path.Ext(f.Name) == ".wav" {
			r.Add(report.Figure{File: f.Name, Alt: f.Purpose})
		}
	}
	r.Sections = append(r.Sections, p.Plan.Sections[1:]...)
	return r
}

// drawings are the forms that one drawing is written in, best to look at first.
var drawings = []string{".svg", ".png", ".pdf"}

func isDrawing(f File) bool { return slices.Contains(drawings, path.Ext(f.Name)) }

func stem(name string) string { return strings.TrimSuffix(name, path.Ext(name)) }

// pictures are the files that show something, each drawing once and under the
// words of the form of it that is listed first. What is only on paper is left out.
func pictures(files []File) []File {
	var out []File
	for _, f := range files {
		if !isDrawing(f) || slices.ContainsFunc(out, func(o File) bool { return stem(o.Name) == stem(f.Name) }) {
			continue
		}
		for _, end := range drawings[:2] {
			name := stem(f.Name) + end
			if slices.ContainsFunc(files, func(o File) bool { return o.Name == name }) {
				out = append(out, File{name, f.Purpose})
				break
			}
		}
	}
	return out
}
