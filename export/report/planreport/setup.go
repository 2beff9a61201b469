package planreport

import (
	"fmt"

	"seamrail/export/report"
	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
	"seamrail/motion/spec/shot"
)

// setUp tells what lies under the shot: which files, and where each value stands.
func (p *page) setUp() {
	laid := p.d.Laid
	p.Section("SET-UP")
	for _, f := range laid.Files {
		p.Field(f.Kind, fmt.Sprintf("%s (%s)", f.Title, f.Name))
	}
	if len(laid.Values) == 0 {
		return
	}
	t := report.Table{Columns: []report.Column{{Head: "value"}, {Head: "is"}, {Head: "stands in"}}}
	for _, v := range laid.Values {
		t.Rows = append(t.Rows, report.Row{Cells: []string{v.Path, v.Text.Text, standsIn(v.Text)}})
		for _, b := range v.Below {
			t.Rows = append(t.Rows, report.Row{Cells: []string{"  and not", b.Text, standsIn(b)}, Tone: report.Dim})
		}
	}
	p.Add(t)
}

// standsIn is the file and the line of a value.
func standsIn(t source.Text) string {
	switch {
	case t.Origin != "":
		return t.Origin
	case t.File == "":
		return fmt.Sprintf("the shot, line %d", t.Line)
	}
	return fmt.Sprintf("%s, line %d", t.File, t.Line)
}

// SetUps names what lies under a shot, a line each: set-ups, and what they take from the
// shelf.
func SetUps(l shot.Laid) []string {
	return report.Each(l.Files, func(f shot.LaidFile) string {
		if f.Kind == "set-up" {
			return fmt.Sprintf("%s (%s)", f.Title, f.Name)
		}
		return fmt.Sprintf("%s: %s (%s)", f.Kind, f.Title, f.Name)
	})
}

// SetUp is what lies under the shot.
type SetUp struct {
	Files  []SetUpFile  `json:"files"` // set-ups, the lowest first, and then what is on the shelf
	Values []SetUpValue `json:"values"`
}

// SetUpFile is a file that lies under the shot.
type SetUpFile struct {
	Kind  string `json:"kind"`  // "set-up", "camera", "lens" or "lamp"
	File  string `json:"file"`  // its name
	Title string `json:"title"` // what it is called in it
}

// SetUpValue is a value that stands in such a file, or over one that does.
type SetUpValue struct {
	Key   string     `json:"key"` // in the shot, such as "camera.aperture"
	Is    StandsIn   `json:"is"`
	Below []StandsIn `json:"below,omitempty"` // values that do not count, the next one below first
}

// StandsIn is a value as it is written, and where.
type StandsIn struct {
	Value  string `json:"value"`
	File   string `json:"file"` // its name; "" for the shot's own
	Line   int    `json:"line"`
	Column int    `json:"column"`
}

func setUpOf(l shot.Laid) *SetUp {
	if len(l.Files) == 0 {
		return nil
	}
	place := func(t source.Text) StandsIn { return StandsIn{t.Text, t.File, t.Line, t.Column} }
	return &SetUp{
		Files: report.Each(l.Files, func(f shot.LaidFile) SetUpFile { return SetUpFile{f.Kind, f.Name, f.Title} }),
		Values: report.Each(l.Values, func(v source.Leaf) SetUpValue {
			return SetUpValue{v.Path, place(v.Text), list.Map(v.Below, place)}
		}),
	}
}
