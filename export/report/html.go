package report

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"math"
	"path"
	"slices"
	"strings"
	"sync"

	"seamrail/motion/base/plain"
)

//go:embed page.html
var layout string

// layOut is read when a page is first written: most commands write none.
var layOut = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("page").Funcs(template.FuncMap{
		"runs": runs, "kind": Block.kind, "class": func(t Tone) string { return classes[t] }, "full": full,
		"sound": func(f Figure) bool { return path.Ext(f.File) == ".wav" },
		"above": above,
		"bare":  Table.bare, "legend": func(t Table) string { return t.legend(math.MaxInt) },
		"cell": cell,
	}).Parse(layout))
})

var classes = [...]string{Plain: "", Dim: "dim", Strong: "strong", Good: "good", Fair: "fair", Poor: "poor", Grave: "grave"}

// HTML writes a report as a page that stands by itself: it names only files beside
// it, runs nothing, and whatever comes from a file is escaped (html/template). The
// error is the writer's, wrapped.
func HTML(w io.Writer, r Report) error {
	r.Sections = slices.DeleteFunc(slices.Clone(r.Sections), func(s Section) bool { return len(s.Blocks) == 0 })
	var buf bytes.Buffer
	err := layOut().Execute(&buf, r)
	if err == nil {
		for line := range strings.Lines(buf.String()) {
			if _, err = io.WriteString(w, plain.Text(strings.TrimSuffix(line, "\n"))+"\n"); err != nil {
				break
			}
		}
	}
	if err != nil {
		return fmt.Errorf("writing the page of a report: %w", err)
	}
	return nil
}

// above is the last section that stands above the list of contents: that of a picture
// which comes before all that has a title but faults, or else the first.
func above(sections []Section) int {
	for i, s := range sections {
		switch {
		case slices.ContainsFunc(s.Blocks, func(b Block) bool { return b.kind() == "figure" }):
			return i
		case s.Title != "" && s.Name != "faults":
			return 0
		}
	}
	return 0
}

// run is blocks that follow each other and make one list on the page.
type run struct {
	Kind   string
	Blocks []Block
}

// runs parts blocks where their kind changes; a gauge stands among fields.
func runs(blocks []Block) []run {
	var out []run
	for _, b := range blocks {
		kind := b.kind()
		if kind == "gauge" {
			kind = "field"
		}
		if n := len(out); n > 0 && out[n-1].Kind == kind {
			out[n-1].Blocks = append(out[n-1].Blocks, b)
			continue
		}
		out = append(out, run{kind, []Block{b}})
	}
	return out
}

// cell is what kind of cell stands in a column of a row.
func cell(t Table, r Row, i int) string {
	out := ""
	if i == len(t.Columns)-1 {
		out = classes[r.Verdict]
	}
	if t.Columns[i].Right {
		out += " right"
	}
	return strings.TrimSpace(out)
}

// full is how much of a bar is drawn, in per cent.
func full(share float64) int { return int(100 * min(share, 1)) }
