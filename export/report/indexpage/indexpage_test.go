package indexpage_test

import (
	"bytes"
	"io"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/indexpage"
	"seamrail/motion/plan/sample"
)

func text(t require.TestingT, p indexpage.Page) string {
	var b bytes.Buffer
	require.NoError(t, report.HTML(&b, p.Report()))
	return b.String()
}

// plan is the report of a plan: a verdict and a part.
func plan() report.Report {
	r := report.Report{Title: "Fernhollow lantern", Subtitle: "Bench rail · plan 0123456789abcdef"}
	r.Headline(report.Good, "READY", "The loop closes and the rig can do it; every check passed.")
	r.Named("answer", "")
	r.Field("keep", "round 2")
	r.Named("faults", "DOES NOT HOLD")
	r.Add(report.Field{Label: "light", Text: "too dark", Mark: "x", Tone: report.Poor})
	r.Section("RAIL")
	r.Field("moves", "40 mm to 100 mm")
	return r
}

var folder = indexpage.Page{
	Plan: plan(),
	Files: []indexpage.File{
		{"report.txt", "read this first", "the set"}, {"loop.png", "drawn", "the set"}, {"loop.svg", "drawn too", "the set"}, {"loop.pdf", "on paper", "the set"},
		{"preview.png", "what the lens sees", "the set"}, {"cues.wav", "clicks", "the set"}, {"loop.ngc", "G-code", "the rig"},
	},
	Moving:  "preview.png",
	LeftOut: []indexpage.LeftOut{{Names: []string{"above.svg", "above.png"}, Why: "The shot has no scene."}},
}

func TestGolden(t *testing.T) { sample.Golden(t, "index.html", text(t, folder)) }

var source = regexp.MustCompile(` src="([^"]*)"`)

// Each picture is shown once: the drawing that can be enlarged, not its copy in
// pixels; and sounds can be played.
func TestWhatIsShown(t *testing.T) {
	var shown []string
	for _, m := range source.FindAllStringSubmatch(text(t, folder), -1) {
		shown = append(shown, m[1])
	}
	require.Equal(t, []string{"preview.png", "loop.svg", "cues.wav"}, shown)
	require.Contains(t, text(t, folder), "<figcaption>loop.svg: drawn</figcaption>", "in the words of the form listed first")
	require.NotContains(t, text(t, indexpage.Page{Plan: plan(), Files: []indexpage.File{{Name: "sheet.pdf", Purpose: "on paper"}}}), "PICTURES")
	require.Contains(t, text(t, folder), "Left out: above.svg, above.png. The shot has no scene.")
}

// The verdict stands first, with what does not hold, then the loop in motion and what to
// do; the files follow for whom they are, and the rest of the report below them.
func TestWhatComesFirst(t *testing.T) {
	got, at := text(t, folder), -1
	for _, part := range []string{"<h1>Fernhollow lantern</h1>", "<b>READY</b>", "not an emergency stop", ">DOES NOT HOLD</h2>", "preview.png: what the lens sees", "<nav", "round 2", ">FOR THE SET</h2>", ">FOR THE RIG</h2>", ">PICTURES</h2>", ">SOUND</h2>", ">RAIL</h2>"} {
		next := strings.Index(got, part)
		require.Greater(t, next, at, part)
		at = next
	}
	require.Len(t, folder.Plan.Sections, 4, "the report of the plan stays as it is")
}

func TestThatItWasForcedIsSaid(t *testing.T) {
	p := folder
	for _, p.Forced = range []bool{false, true} {
		require.Equal(t, p.Forced, strings.Contains(text(t, p), "Written because it was forced: do not run it as it is."))
	}
}

func TestWriterFails(t *testing.T) {
	sample.Fails(t, len(text(t, folder)), func(w io.Writer) error { return report.HTML(w, folder.Report()) })
}
