package spinreport

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/plan/sample"
	"seamrail/motion/turntable/spin"
)

// bench is the lantern on a display stand of two speeds, looked for from 4 to
// 40 s.
func bench(t *testing.T) Data {
	c, err := clock.New(exact.New(120000, 1001), exact.New(24000, 1001), exact.Rat{})
	require.NoError(t, err)
	stand := spin.Stand{Name: "display", Regulation: exact.New(1, 50_000), Regulated: true, Speeds: []spin.Speed{
		{Name: "slow", Period: exact.New(204, 10), Sigma: exact.New(1, 2000)},
		{Name: "fast", Period: exact.New(73, 10), Sigma: exact.New(1, 2000)},
	}}
	d := Data{
		Title: "Spin: Fernhollow lantern",
		Query: spin.Query{
			Clock: c, From: exact.Int(4), To: exact.Int(40), Captures: []exact.Rat{exact.Int(60)}, Most: 6, Cycles: 2,
			Products: []spin.Product{{Stand: stand, Symmetry: 6, Radius: exact.Int(45), Scale: exact.Int(12)}},
		},
		Defaults: []source.Default{{Key: "within", Value: "0.5 px", Why: "an edge lands on another pixel"}},
	}
	return found(t, d)
}

func found(t *testing.T, d Data) Data {
	a, err := spin.Find(d.Query)
	require.NoError(t, err)
	d.Answer = a
	return d
}

func text(t *testing.T, d Data, opt bool) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, report.Text(&b, d.Report(), opt))
	return b.String()
}

func TestGolden(t *testing.T) {
	sample.Golden(t, "bench.txt", text(t, bench(t), false))
	var b bytes.Buffer
	require.NoError(t, report.JSON(&b, bench(t).Facts()))
	sample.Golden(t, "bench.json", b.String())
}

// Nothing is wider than a page, and colour changes no word.
func TestPageIsNarrow(t *testing.T) {
	d := bench(t)
	plain := text(t, d, false)
	for line := range strings.Lines(plain) {
		assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimRight(line, "\n")), 80, line)
	}
	colour := text(t, d, true)
	assert.Contains(t, colour, "\x1b[")
	assert.Equal(t, strings.Count(plain, "\n"), strings.Count(colour, "\n"))
}

// Where several stands and rates leave no room, what is said in other units goes.
func TestWideTablesLoseColumns(t *testing.T) {
	d := bench(t)
	assert.Contains(t, text(t, d, false), "f/100")
	fan := d.Query.Products[0]
	fan.Stand.Name, fan.Stand.Direction = "background fan", spin.Anticlockwise
	d.Query.Products = append(d.Query.Products, fan)
	d.Query.Captures = []exact.Rat{exact.Int(100), exact.Int(60)}
	out := text(t, found(t, d), false)
	for line := range strings.Lines(out) {
		assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimRight(line, "\n")), 80, line)
	}
	assert.NotContains(t, out, "f/100")
	assert.Contains(t, out, "deg off")
}

func TestVerdicts(t *testing.T) {
	d := bench(t)
	d.Query.Captures = nil
	d.Query.Products[0].Stand.Speeds = []spin.Speed{{Name: "slow", Period: exact.New(204, 10)}}
	d.Query.Products[0].Scale = exact.Int(80)
	none := text(t, found(t, d), false)
	assert.Contains(t, none, "NONE CLOSES  within 0.5 px; the nearest is 33.992 s on screen")
	assert.Contains(t, none, "WHAT WOULD CLOSE")
	for _, part := range []string{"a longer loop", "another capture rate, if the camera has it", "if the camera's can be trimmed", "alike faces", "cross-dissolve of 4 frames"} {
		assert.Contains(t, none, part)
	}
	d.Query.Products[0].Within = spin.Bound{Value: exact.Int(1), Unit: spin.Degrees}
	sure := text(t, found(t, d), false)
	assert.Contains(t, sure, "CLOSES  33.992 s on screen, 815 captured frames: 2/6 turn")
	assert.NotContains(t, sure, "WHAT WOULD CLOSE")
	d.Query.Products[0].Stand.Speeds[0].Sigma = exact.Int(1)
	assert.Contains(t, text(t, found(t, d), false), "UNSURE")
}

func TestMeasuredIsTold(t *testing.T) {
	d := bench(t)
	d.Assume = spin.Assume{Capture: d.Query.Clock.Capture}
	var readings []spin.Reading
	for _, s := range []string{"20 turns in 412.3 s", "3 turns in 7410 frames"} {
		r, err := spin.ParseReading(s, d.Assume)
		require.NoError(t, err)
		readings = append(readings, r)
	}
	m, err := spin.Measure(readings)
	require.NoError(t, err)
	d.Measured = []Measured{{Stand: "display", Speed: "slow", Measured: m}}
	out := text(t, d, false)
	for _, part := range []string{"MEASURED: DISPLAY, slow", "20 turns in 412.3 s", "3 turns in 7410 frames", "each press of the stopwatch within 0.1 s", "nearest captured"} {
		assert.Contains(t, out, part)
	}
}

func TestTableIsADivision(t *testing.T) {
	seventh := exact.New(1, 7)
	d := Data{Title: "Spin: a table", Query: spin.Query{Clock: bench(t).Query.Clock}, Tables: []Table{{
		Name: "table", Turns: seventh, Speed: exact.Int(50), Steady: true, Symmetry: 7, Period: exact.Int(1),
		Remainder: spin.RemainderOf(exact.Int(3200), seventh), RunUp: 100, RunOut: 90,
	}}}
	out := text(t, d, false)
	assert.Contains(t, out, "457 and 1/7 a round")
	assert.Contains(t, out, "every 7 rounds")
	assert.Contains(t, out, "spins up in 100 captured frames")
	assert.NotContains(t, out, "THE START")
}

// Names from a file cannot command the terminal.
func TestNamesAreCleaned(t *testing.T) {
	d := bench(t)
	d.Title = "Spin: \x1b[31mred"
	d.Query.Products[0].Stand.Speeds[0].Name = "s\x1b[2J"
	assert.NotContains(t, text(t, found(t, d), false), "\x1b")
}

// Exact numbers come back from the JSON as they are.
func TestJSONIsExact(t *testing.T) {
	d := bench(t)
	var b bytes.Buffer
	require.NoError(t, report.JSON(&b, d.Facts()))
	var back Document
	require.NoError(t, json.Unmarshal(b.Bytes(), &back))
	require.Len(t, back.Loops, len(d.Answer.Loops))
	assert.Equal(t, Schema, back.Schema)
	for i, l := range d.Answer.Loops {
		assert.True(t, l.Seams[0].Error.Equal(back.Loops[i].Seams[0].Error))
		assert.Equal(t, l.Captured, back.Loops[i].Captured)
	}
}

func TestAFailingWriterIsReported(t *testing.T) {
	assert.Error(t, report.Text(&sample.Broken{}, bench(t).Report(), false))
	assert.Error(t, report.JSON(&sample.Broken{}, bench(t).Facts()))
}
