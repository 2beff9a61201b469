package indexpage_test

import (
	"bytes"
	"html"
	"io"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/indexpage"
	"seamrail/motion/plan/judge"
	"seamrail/motion/plan/sample"
)

func text(t require.TestingT, p indexpage.Page) string {
	var b bytes.Buffer
	require.NoError(t, indexpage.Write(&b, p))
	return b.String()
}

var folder = indexpage.Page{
	Title: "Fernhollow lantern", Plan: "0123456789abcdef", Headline: judge.Headline{Stamp: "READY", Words: "The loop closes and the rig can do it; every check passed."}, Report: "READY\n  rail  40 mm\n",
	Files: []indexpage.File{
		{"report.txt", "read this first"}, {"loop.png", "drawn"}, {"loop.svg", "drawn too"}, {"loop.pdf", "on paper"},
		{"preview.png", "what the lens sees"}, {"cues.wav", "clicks"},
	},
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
	require.Equal(t, []string{"loop.svg", "preview.png", "cues.wav"}, shown)
	require.Contains(t, text(t, folder), "<figcaption>loop.svg: drawn</figcaption>", "in the words of the form listed first")
	require.NotContains(t, text(t, indexpage.Page{Files: []indexpage.File{{"sheet.pdf", "on paper"}}}), "Pictures")
}

func TestTheHeadlineIsSaid(t *testing.T) {
	p := folder
	for tone, class := range map[judge.Tone]string{judge.Clear: "clear", judge.Minded: "minded", judge.Barred: "barred"} {
		p.Headline = judge.Headline{Tone: tone, Stamp: "A STAMP", Words: "Some <words>."}
		got := text(t, p)
		require.Contains(t, got, `<p class="verdict `+class+`"><b>A STAMP</b> Some &lt;words&gt;.`)
		require.Equal(t, tone == judge.Barred, strings.Contains(got, "Written because it was forced: do not run it as it is."))
	}
}

// Nothing is fetched from a network, and nothing runs.
func TestStandsByItself(t *testing.T) {
	got := text(t, folder)
	require.NotContains(t, got, "//")
	require.NotContains(t, got, "<script")
	require.Contains(t, got, `content="default-src 'none';`)
}

// Whatever a shot is called, the page has the marks it has for a plain name, and
// the name reads back from it.
func TestEverythingIsEscaped(t *testing.T) {
	words := rapid.StringOfN(rapid.OneOf(rapid.Rune(), rapid.SampledFrom([]rune(`<>"'&/=;`+"`"))), 0, 40, -1)
	rapid.Check(t, func(t *rapid.T) {
		p := folder
		p.Title, p.Plan, p.Report = words.Draw(t, "title"), words.Draw(t, "plan"), words.Draw(t, "report")
		p.Files = []indexpage.File{{Name: "x" + words.Draw(t, "name"), Purpose: words.Draw(t, "purpose")}}
		plain := folder
		plain.Files = []indexpage.File{{Name: "x", Purpose: "y"}}
		if strings.HasSuffix(p.Files[0].Name, ".png") || strings.HasSuffix(p.Files[0].Name, ".svg") || strings.HasSuffix(p.Files[0].Name, ".wav") {
			t.Skip("a picture or a sound is shown once more")
		}
		got, want := text(t, p), text(t, plain)
		for _, mark := range []string{"<", ">", `"`} {
			require.Equal(t, strings.Count(want, mark), strings.Count(got, mark), "%s", mark)
		}
		if report := strings.Map(printable, p.Report); report == p.Report {
			require.Contains(t, html.UnescapeString(got), report)
		}
	})
}

// printable leaves out what no page holds as it is.
func printable(r rune) rune {
	if r < ' ' || r == 0xfffd {
		return -1
	}
	return r
}

func TestWriterFails(t *testing.T) {
	sample.Fails(t, len(text(t, folder)), func(w io.Writer) error { return indexpage.Write(w, folder) })
}
