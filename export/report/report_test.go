package report_test

import (
	"bytes"
	"html"
	"io"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/report"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/source"
	"seamrail/motion/plan/judge"
	"seamrail/motion/plan/sample"
)

const long = "is told in so many words that no line of a terminal which nobody has widened has the room for all of them"

// all has every block there is, in every tone.
func all() report.Report {
	r := report.Report{Title: "Fernhollow lantern", Subtitle: "Bench rail · plan 0123"}
	r.Headline(report.Fair, "READY, BUT", "this "+long)
	r.Bullets(report.Poor, "x", "a point that "+long)
	r.Section("RAIL")
	r.Field("moves", "40 mm to 100 mm")
	r.Field("says nothing", "")
	r.Add(report.Gauge{Label: "speed", Value: "93.8 mm/s", Share: 0.23, Tone: report.Good, Told: "23 % of", Limit: "400 mm/s", When: "at 1 s"})
	r.Add(report.Gauge{Label: "jerk", Value: "12 mm/s3", Share: 3, Tone: report.Poor, Told: "300 % of", Limit: "4 mm/s3"})
	r.Add(report.Field{Label: "clearance", Text: "the lens strikes; " + long, Tone: report.Grave, Mark: "X"})
	r.Toned(report.Dim, "", "beside the matter")
	r.Toned(report.Strong, "mind", "strong")
	r.Fields("since", []string{"one", "two"})
	r.Add(report.Field{Label: "keep it", Text: "shake = {  frequency = \"6 Hz\" }", Code: true})
	r.Section("EMPTY")
	r.Section("LOOPS")
	r.Field("looked at", "two")
	r.Add(report.Table{
		Columns: []report.Column{{Head: "seconds", Right: true}, {Head: "±mm", Right: true}, {Head: "closes"}},
		Rows: []report.Row{
			{Cells: []string{"4.0", "0.1", "yes"}, Verdict: report.Good}, {Across: "the shot's own loop:", Tone: report.Dim},
			{Cells: []string{"12.25", "0.05", "no"}, Verdict: report.Poor}, {Cells: []string{"1", "", "maybe " + long}, Tone: report.Fair},
		},
	}, report.Note{Text: "A note " + long})
	r.Section("FILES")
	r.Add(report.Table{Columns: []report.Column{{Files: true}, {}}, Rows: []report.Row{{Cells: []string{"loop.svg", "drawn"}}}})
	r.Add(report.Figure{File: "loop.svg", Alt: "the loop"}, report.Figure{File: "cues.wav", Alt: "clicks"})
	r.Defaults([]source.Default{{Key: "axis.rail.law", Value: "3-4-5", Why: "little jerk"}, {Key: "rounds", Value: "3"}})
	return r
}

func text(t require.TestingT, r report.Report, colour bool) string {
	var b strings.Builder
	require.NoError(t, report.Text(&b, r, colour))
	return b.String()
}

func page(t require.TestingT, r report.Report) string {
	var b strings.Builder
	require.NoError(t, report.HTML(&b, r))
	return b.String()
}

func TestGolden(t *testing.T) {
	sample.Golden(t, "all.txt", text(t, all(), false))
	sample.Golden(t, "all.ansi", text(t, all(), true))
	sample.Golden(t, "all.html", page(t, all()))
}

// However wide the terminal is, lines fit it as far as they can be read, and all is told.
func TestLinesFitTheTerminal(t *testing.T) {
	told := func(columns int) string {
		var b strings.Builder
		require.NoError(t, report.TextWithin(&b, all(), false, columns))
		return b.String()
	}
	words := func(text string) []string {
		return strings.Fields(strings.NewReplacer("#", "", ".", "").Replace(text))
	}
	usual := words(told(report.Width))
	for columns, widest := range map[int]int{60: 60, 80: 80, 120: 120, 0: report.Narrowest, 400: report.Broadest} {
		lines := strings.Split(strings.TrimSuffix(told(columns), "\n"), "\n")
		longest := 0
		for _, line := range lines {
			longest = max(longest, utf8.RuneCountInString(line))
			assert.Equal(t, strings.TrimRight(line, " "), line)
		}
		assert.LessOrEqual(t, longest, widest)
		assert.Greater(t, longest, widest-15, "the width is used")
		assert.Equal(t, usual, words(told(columns)))
	}
	assert.Equal(t, told(report.Width), text(t, all(), false))
}

// plainly takes the colours off again; bars are drawn with other characters.
func plainly(coloured string) string {
	var out strings.Builder
	for i, part := range strings.Split(coloured, "\x1b[") {
		if i > 0 {
			_, part, _ = strings.Cut(part, "m")
		}
		out.WriteString(part)
	}
	return strings.NewReplacer("━", "#", "─", ".").Replace(out.String())
}

func TestColourChangesNoWords(t *testing.T) {
	got := text(t, all(), true)
	assert.Equal(t, text(t, all(), false), plainly(got))
	assert.Equal(t, strings.Count(got, "\x1b["), 2*strings.Count(got, "\x1b[0m"))
}

func TestAnEmptyReportIsItsTitle(t *testing.T) {
	r := report.Report{Title: "Nothing"}
	r.Section("EMPTY")
	r.Bullets(report.Good, "+")
	assert.Equal(t, "Nothing\n", text(t, r, false))
	assert.NotContains(t, page(t, r), "<section")
}

// hostile is text as a file may have it.
var hostile = rapid.StringOfN(rapid.OneOf(rapid.Rune(), rapid.SampledFrom([]rune("<>\"'&/=;`\x1b\u202e"))), 0, 40, -1)

// told is a report of every block with such texts.
func told(t *rapid.T) report.Report {
	say := func() string { return "x" + hostile.Draw(t, "text") }
	r := report.Report{Title: say(), Subtitle: say()}
	r.Headline(report.Good, say(), say())
	r.Section(say())
	r.Add(report.Field{Label: say(), Text: say(), Mark: "x"}, report.Field{Label: say(), Text: say(), Code: true})
	r.Add(report.Gauge{Label: say(), Value: say(), Told: say(), Limit: say(), When: say()}, report.Note{Text: say()}, report.Figure{File: say() + ".svg", Alt: say()})
	r.Bullets(report.Good, "+", say())
	r.Add(report.Table{Columns: []report.Column{{Head: say(), Files: true}, {Head: say()}}, Rows: []report.Row{{Cells: []string{say(), say()}}, {Across: say()}}})
	return r
}

// Whatever texts hold, a terminal is told nothing but words.
func TestTextIsHarmless(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		got := text(t, told(t), false)
		assert.NotContains(t, got, "\x1b")
		assert.NotContains(t, got, "\u202e")
	})
}

// Whatever texts hold, a page has the marks it has for plain ones, and they read
// back from it.
func TestEverythingIsEscaped(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := told(t)
		got := page(t, r)
		blank := page(t, plainTexts())
		for _, mark := range []string{"<", ">", `"`} {
			require.Equal(t, strings.Count(blank, mark), strings.Count(got, mark), "%s", mark)
		}
		assert.NotContains(t, got, "\u202e")
		if words := r.Sections[0].Blocks[0].(report.Headline).Words; plain.Is(words) {
			require.Contains(t, html.UnescapeString(got), words)
		}
	})
}

// plainTexts is what told makes of no hostile text.
func plainTexts() report.Report {
	r := report.Report{Title: "x", Subtitle: "x"}
	r.Headline(report.Good, "x", "x")
	r.Section("x")
	r.Add(report.Field{Label: "x", Text: "x", Mark: "x"}, report.Field{Label: "x", Text: "x", Code: true})
	r.Add(report.Gauge{Label: "x", Value: "x", Told: "x", Limit: "x", When: "x"}, report.Note{Text: "x"}, report.Figure{File: "x.svg", Alt: "x"})
	r.Bullets(report.Good, "+", "x")
	r.Add(report.Table{Columns: []report.Column{{Head: "x", Files: true}, {Head: "x"}}, Rows: []report.Row{{Cells: []string{"x", "x"}}, {Across: "x"}}})
	return r
}

// Nothing is fetched from a network, and nothing runs.
func TestThePageStandsByItself(t *testing.T) {
	got := page(t, all())
	assert.NotContains(t, got, "//")
	assert.NotContains(t, got, "<script")
	assert.Contains(t, got, `content="default-src 'none';`)
}

func TestWritersThatFail(t *testing.T) {
	for _, colour := range []bool{false, true} {
		assert.ErrorIs(t, report.Text(&sample.Broken{}, all(), colour), sample.ErrFull)
	}
	sample.Fails(t, len(page(t, all())), func(w io.Writer) error { return report.HTML(w, all()) })
	assert.ErrorIs(t, report.JSON(&sample.Broken{}, 1), sample.ErrFull)
}

func TestJSON(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, report.JSON(&b, struct {
		Name string           `json:"name"`
		List []report.Default `json:"list"`
	}{"a <\x1b>", report.Each([]source.Default{{Key: "k", Value: "v", Why: "w"}}, report.DefaultOf)}))
	assert.Equal(t, "{\n  \"name\": \"a <\\u001b>\",\n  \"list\": [\n    {\n      \"key\": \"k\",\n      \"value\": \"v\",\n      \"why\": \"w\"\n    }\n  ]\n}\n", b.String())
	assert.NotNil(t, report.Each[int, int](nil, nil))
	assert.NotNil(t, report.List[int](nil))
}

func TestRounding(t *testing.T) {
	r := report.Rounding{Digits: 3, Grain: 1e-6}
	for v, want := range map[float64]float64{1.2345: 1.23, -9999: -10000, 1e-7: 0, 2e-6: 2e-6} {
		assert.Equal(t, want, r.Of(v))
	}
	assert.False(t, math.Signbit(report.Rounded(math.Copysign(0, -1), 3)), "never the negative zero")
	assert.False(t, math.Signbit(report.Millionth(-1e-9)))
	assert.Equal(t, 0.333333, report.Millionth(1.0/3))
	assert.Nil(t, r.OrNull(math.Inf(-1)))
	assert.Nil(t, r.OrNull(math.NaN()))
	assert.Equal(t, 0.5, *r.OrNull(0.5))
	assert.Equal(t, []string{"12300", "0.00123"}, []string{report.Digits(12345, 3), report.Digits(0.0012345, 3)})
}

func TestTonesOfAJob(t *testing.T) {
	for tone, want := range map[judge.Tone]report.Tone{judge.Clear: report.Good, judge.Minded: report.Fair, judge.Barred: report.Poor} {
		assert.Equal(t, want, report.JudgeTone(tone))
	}
}
