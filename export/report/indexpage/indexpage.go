// Package indexpage is the page that opens a folder of exports in a browser: its
// verdict, the moving picture, the files for whom they are, and the rest of the report.
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
	Moving  string        // the file that shows it in motion, "" for none
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
	For           string // who needs it, "the set"; "" where all are for the same
}

// first are the sections of the report that stand above the files, beside the verdict:
// what does not hold above the moving picture, the rest below it.
var first = []string{"answer", "doubts"}

// Report is that of the plan with the folder in it, after the verdict and what there is
// to do. Pictures and sounds among the files are shown; of a picture that is there in
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
	r.Sections = append(r.Sections, p.named("faults")...)
	r.Section("")
	for _, f := range p.Files {
		if f.Name == p.Moving {
			r.Add(report.Figure{File: f.Name, Alt: f.Purpose})
		}
	}
	r.Sections = append(r.Sections, p.named(first...)...)
	p.files(&r)
	r.Section("PICTURES")
	for _, f := range pictures(p.Files) {
		if f.Name != p.Moving {
			r.Add(report.Figure{File: f.Name, Alt: f.Purpose})
		}
	}
	r.Section("SOUND")
	for _, f := range p.Files {
		if path.Ext(f.Name) == ".wav" {
			r.Add(report.Figure{File: f.Name, Alt: f.Purpose})
		}
	}
	for _, s := range p.Plan.Sections[1:] {
		if s.Name != "faults" && !slices.Contains(first, s.Name) {
			r.Sections = append(r.Sections, s)
		}
	}
	return r
}

// named are sections of the report.
func (p Page) named(names ...string) []report.Section {
	return slices.DeleteFunc(slices.Clone(p.Plan.Sections), func(s report.Section) bool { return !slices.Contains(names, s.Name) })
}

// files lists the files for whom they are, and at last those that are not there.
func (p Page) files(r *report.Report) {
	var whom []string
	for _, f := range p.Files {
		if !slices.Contains(whom, f.For) {
			whom = append(whom, f.For)
		}
	}
	for _, one := range whom {
		title := "FILES"
		if one != "" {
			title = "FOR " + strings.ToUpper(one)
		}
		r.Section(title)
		t := report.Table{Columns: []report.Column{{Files: true}, {}}}
		for _, f := range p.Files {
			if f.For == one {
				t.Rows = append(t.Rows, report.Row{Cells: []string{f.Name, f.Purpose}})
			}
		}
		r.Add(t)
	}
	for _, l := range p.LeftOut {
		r.Add(report.Note{Text: "Left out: " + strings.Join(l.Names, ", ") + ". " + l.Why})
	}
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
				f.Name = name
				out = append(out, f)
				break
			}
		}
	}
	return out
}
