package cli

import (
	"bytes"
	"encoding/json"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli/command"
	"seamrail/export/report/planreport"
)

var shotsFolder = filepath.Join("..", "..", "..", "testdata", "shots")

// reported is the JSON report of a shot that holds.
func reported(t *testing.T, name string) planreport.Document {
	t.Helper()
	var out, errs bytes.Buffer
	code := Run(command.Streams{In: strings.NewReader(""), Out: &out, Err: &errs}, []string{"plan", name, "--json"})
	require.Zero(t, code, errs.String())
	var d planreport.Document
	require.NoError(t, json.Unmarshal(out.Bytes(), &d))
	return d
}

func TestEveryShotOfTheFolderHolds(t *testing.T) {
	names, err := filepath.Glob(filepath.Join(shotsFolder, "*.toml"))
	require.NoError(t, err)
	require.NotEmpty(t, names)
	for _, name := range names {
		assert.True(t, reported(t, name).Verdict.Ready, name)
	}
}

// The macro shot against closed forms, from the file to the report. Common
// practice: a macro lens near f/14 at 120 frames a second takes a shutter marked
// 1/250 for a half circle, and wants ISO in the low thousands under a lamp of
// 4500 lm at 90 % near the product.
func TestTheMacroShotAgainstClosedForms(t *testing.T) {
	d := reported(t, filepath.Join(shotsFolder, "macro.toml"))
	require.NotNil(t, d.Picture)
	figures, levels := map[string]float64{}, map[string]string{}
	for _, c := range d.Picture.Checks {
		levels[c.Check] = c.Level
		for _, f := range c.Figures {
			require.NotNil(t, f.Value, f.Name)
			figures[c.Check+"/"+f.Name] = *f.Value
		}
	}
	const (
		pitch   = 24.0 / 1920
		away    = 438 - 45*0.8660254037844386 // mm from lens to near face
		image   = 100 * (1 + 1.0/3)           // mm from lens to sensor, focused at 1:3
		perMM   = image / away / pitch
		cv      = 15.0 / 8 // of the law 3-4-5
		shutter = 1.0 / 250
	)
	// The frame nearest to the peak of speed misses none of it that shows.
	assert.InDelta(t, cv*12/1*shutter*perMM, figures["smear/together"], 0.005)
	assert.InDelta(t, perMM, figures["magnification/scale"], 1e-3)
	assert.InDelta(t, 360*120*shutter, figures["shutter angle/angle"], 1e-3)
	assert.InDelta(t, 0.01*perMM, figures["backlash of rail/lag"], 1e-3)
	// f/14 is 2^(23/6), a third of a stop wider than f/16; light by ISO 2720 with
	// C = 250.
	n := math.Pow(2, 23.0/6) * (1 + 1.0/3) // as it is focused
	assert.InDelta(t, 250*n*n/(shutter*1600), figures["light/light needed"], 10)
	candela := 0.9 * 4500 / (2 * math.Pi * (1 - math.Cos(math.Pi/6)))
	assert.InDelta(t, candela/0.25*math.Cos(math.Pi/4), figures["light/light there"], 1)
	assert.Equal(t, "good", levels["light"], "ISO 1600 is in the low thousands")
	// 100 Hz of ripple in 120 frames a second beats at 20 Hz, a fifth of it on
	// screen; an exposure of 0.4 ripples leaves sin(0.4 pi)/(0.4 pi) of 6 %.
	assert.InDelta(t, 4, figures["flicker/beat"], 1e-6)
	assert.InDelta(t, 0.06*math.Sin(0.4*math.Pi)/(0.4*math.Pi), figures["flicker/depth"], 1e-5)
	// A barrel of 62 mm, 6 mm off the middle of 90; a front of 67 mm never in it.
	assert.InDelta(t, 45-31-6, figures["hole board/margin"], 1e-6)
}
