package picturereport_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/picturereport"
	"seamrail/motion/base/fault"
	"seamrail/motion/camera/picture"
)

// mixed has a verdict of every level.
func mixed() picture.Report {
	return picture.Report{Verdicts: []picture.Verdict{
		{Check: "clearance", Level: picture.Block, Text: "the lens strikes the product", Cures: fault.Cures{{Words: "a"}, {Words: "b"}}, Failed: []string{"c"}, Advice: []string{"d", "e"}},
		{Check: "steps of rail", Level: picture.Poor, Text: "rail ticks", Figures: []picture.Figure{{Name: "a step", Value: 0.123456, Unit: "px"}, {Name: "reversals", Value: 2}},
			When: &picture.Moment{Frame: 12, Seconds: 0.1, OnScreen: 0.5}, Missing: []string{"pixels wide"}},
		{Check: "field of view", Level: picture.Fair, Text: "wide"},
		{Check: "shutter angle", Level: picture.Good, Text: "natural"},
		{Check: "focus", Text: "not known", Missing: []string{"aperture", "pixels wide"}},
	}}
}

func TestTell(t *testing.T) {
	r := report.Report{Title: "Lantern"}
	r.Section("PICTURE")
	for _, v := range mixed().Verdicts {
		picturereport.Tell(&r, v)
	}
	var b strings.Builder
	require.NoError(t, report.Text(&b, r, false))
	assert.Equal(t, `Lantern

PICTURE
X clearance     the lens strikes the product
                would help: a; or b
                tried in vain: c
                not tried: d; or e
x steps         rail ticks
                a step 0.1235 px, reversals 2, at 0.500 s, frame 12
~ field of view wide
  shutter angle natural
? focus         not known
`, b.String())
}

func TestSummary(t *testing.T) {
	assert.Equal(t, "5 checks: 1 good, 1 will do (~), 1 will not look right (x), 1 must not be driven (X), 1 not known (?)",
		picturereport.Summary(mixed()))
	assert.Equal(t, []string{"clearance: the lens strikes the product"}, picturereport.Blocks(mixed()))
}

// Each missing number is told once, with all it would tell.
func TestLacks(t *testing.T) {
	want := []picturereport.Lack{{"pixels wide", []string{"steps of rail", "focus"}}, {"aperture", []string{"focus"}}}
	assert.Equal(t, want, picturereport.DocumentOf(mixed()).Lacks)
	assert.Equal(t, "pixels wide (steps of rail, focus); aperture (focus)", picturereport.Lacks(mixed()))
	assert.Equal(t, []picturereport.Lack{}, picturereport.DocumentOf(picture.Report{}).Lacks)
	assert.Empty(t, picturereport.Lacks(picture.Report{}))
}

// A bound has its source, and is the shot's own where it is not the usual one.
func TestBounds(t *testing.T) {
	r := picture.Report{Bounds: scene.DefaultBounds()}
	assert.Empty(t, picturereport.OwnBounds(r))
	r.Bounds.SoftSmear, r.Bounds.Clearance = 6, 25
	assert.Equal(t, "soft-smear 6 px, clearance 25 mm", picturereport.OwnBounds(r))
	require.Len(t, picturereport.DocumentOf(r).Bounds, len(scene.BoundList())-4, "one is of lamps that change alone, three of a hand that pulls")
	r.Fades, r.Pulls = true, []picture.Pulling{{}}
	all := picturereport.DocumentOf(r).Bounds
	require.Len(t, all, len(scene.BoundList()))
	for _, b := range all {
		assert.Positive(t, b.Value, b.Key)
		assert.NotEmpty(t, b.Source, b.Key)
		assert.Equal(t, b.Source == "the shot", b.Own, b.Key)
	}
}

// JSON has no infinity, and lists are never null.
func TestDocument(t *testing.T) {
	r := mixed()
	r.Verdicts[2].Figures = []picture.Figure{{Name: "far", Value: math.Inf(1), Unit: "mm"}, {Name: "nil", Value: math.Copysign(0, -1)}}
	data, err := json.Marshal(picturereport.DocumentOf(r))
	require.NoError(t, err)
	text := string(data)
	assert.Contains(t, text, `{"name":"far","value":null,"unit":"mm"},{"name":"nil","value":0,"unit":""}`)
	assert.Contains(t, text, `"worst":"block"`)
	assert.Contains(t, text, `"when":{"real_seconds":0.1,"screen_seconds":0.5,"captured_frame":12}`)
	assert.Equal(t, 5, strings.Count(text, "null"), "four verdicts have no time, and one number no bound: %s", text)
}
