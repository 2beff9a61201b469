package rampreport_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/rampreport"
	"seamrail/motion/base/exact"
	"seamrail/motion/law/rampfit"
	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/rig"
)

func found(t *testing.T, sure float64, names ...string) (d rampreport.Data) {
	t.Helper()
	for _, name := range names {
		data, err := os.ReadFile("testdata/" + name)
		require.NoError(t, err)
		take, err := rampfit.Read(name, string(data), exact.Int(24))
		require.NoError(t, err)
		f, err := rampfit.Find(take, sure)
		require.NoError(t, err)
		d.Takes = append(d.Takes, f)
	}
	return d
}

// Two takes of 4 and 8 s, made with ramps of 0.8 s by another program and read to a tenth.
func TestGolden(t *testing.T) {
	d := found(t, 0, "way-4s.csv", "way-8s.csv")
	var text strings.Builder
	require.NoError(t, report.Text(&text, d.Report(), false))
	sample.Golden(t, "two.txt", text.String())
	assert.True(t, d.Fits())
	m := rampfit.Compare(d.Takes).Seconds
	assert.InDelta(t, 0.8, m.Value, 3*m.Sure)
}

// The lines for the rig file are such as one may have.
func TestTheLinesAreUnderstood(t *testing.T) {
	for _, names := range [][]string{{"way-4s.csv"}, {"way-4s.csv", "way-8s.csv"}} {
		lines := strings.Join(found(t, 0, names...).Keep(), "\n")
		text := "rig = \"r\"\n[controller]\nkind = \"two-ends\"\n[controller.buttons]\ntimes = \"8 s\"\n" + lines +
			"\n[axis.rail]\ntravel = [\"0 mm\", \"400 mm\"]\nspeed = \"none\"\nacceleration = \"none\"\n"
		r, _, err := rig.Decode("r.toml", []byte(text))
		require.NoError(t, err)
		assert.InDelta(t, 0.8, r.Controller.Buttons.Ramp.Time.Float(), 0.01)
	}
}

// Where none fits, no line is offered, and it is said what readings would have to be.
func TestNone(t *testing.T) {
	d := found(t, 0.001, "way-4s.csv")
	assert.False(t, d.Fits())
	assert.Empty(t, d.Keep())
	var text strings.Builder
	require.NoError(t, report.Text(&text, d.Report(), false))
	assert.Contains(t, text.String(), "NONE FITS")
	assert.Contains(t, strings.Join(strings.Fields(text.String()), " "), "the nearest is trapezoidal, off by 0.03971 where a reading is taken to be sure to 0.001")
}

// Where each take has a law of its own nothing is found, and where ramps keep neither a time
// nor a share there is no line that would be true of another way.
func TestTakesThatDiffer(t *testing.T) {
	fit := func(law string, way, seconds float64) rampfit.Found {
		f := rampfit.Fit{Law: law, Fits: true, Way: way, Ramp: seconds / way, RampSure: 0.001, Seconds: seconds, SecondsSure: 0.001 * way}
		return rampfit.Found{Best: f, All: []rampfit.Fit{f}}
	}
	told := func(takes ...rampfit.Found) (rampreport.Data, string) {
		d := rampreport.Data{Takes: takes}
		var text strings.Builder
		require.NoError(t, report.Text(&text, d.Report(), false))
		return d, strings.Join(strings.Fields(text.String()), " ")
	}
	d, text := told(fit("trapezoidal", 4, 0.8), fit("seven-segment", 8, 0.8))
	assert.False(t, d.Fits())
	assert.Empty(t, d.Keep())
	assert.Contains(t, text, "NONE FITS ALL Each take has a law of its own: trapezoidal, seven-segment.")
	d, text = told(fit("trapezoidal", 4, 0.8), fit("trapezoidal", 8, 1.2))
	assert.True(t, d.Fits())
	assert.Empty(t, d.Keep())
	assert.Contains(t, text, "neither a time nor a share")
	d, _ = told(fit("trapezoidal", 4, 0.8), fit("trapezoidal", 8, 1.6))
	assert.Equal(t, []string{"[controller.ramp]", `law = "trapezoidal"`, `share = "0.2"`}, d.Keep())
	d, _ = told(fit("trapezoidal", 4, 0.8), fit("trapezoidal", 4, 0.8))
	assert.Contains(t, d.Keep(), `# or share = "0.2": another time of the way tells which`)
}
