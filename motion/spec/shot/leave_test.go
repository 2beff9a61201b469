package shot_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/source"
	"seamrail/motion/spec/shot"
)

// gone leaves tables out.
func gone(paths ...string) (out []source.Override) {
	for _, p := range paths {
		out = append(out, source.Override{Path: p, Origin: "--without", Gone: true})
	}
	return out
}

const (
	panning = "[axis.pan]\nmove = \"aim\"\nas = \"pan\"\nfollow = \"rail\"\npoint = [\"40 mm\", \"400 mm\", \"0 mm\"]\n"
	clap    = "[[cue]]\nname = \"clap\"\nat = \"12 frames\"\n"
	bead    = "[[cue]]\nname = \"bead\"\nat = \"turnaround\"\n"
	pearl   = "[[cue]]\nname = \"pearl\"\nat = \"far-end\"\naxis = \"rail\"\n"
)

// What speaks of an axis goes with it, and each of it is told; all else stays as it is.
func TestLeaving(t *testing.T) {
	for _, c := range []struct {
		name, text string
		out        []source.Override
		axes       []string
		cues       []string
		told       []shot.LeftOut
	}{
		{"a table and its part", product + turning + asTable + clap, gone("axis.table"), []string{"rail"}, []string{"clap"},
			[]shot.LeftOut{{Key: "axis.table", Why: "as --without asks"}, {Key: "scene.axis.table", Why: "the part of table in the picture"}}},
		{"what the product stands on", product + "on = \"table\"\n" + turning, gone("axis.table"), []string{"rail"}, nil,
			[]shot.LeftOut{{Key: "axis.table", Why: "as --without asks"}, {Key: "scene.product.on", Why: "it stands on table"}}},
		{"a stand", product + still + stand, gone("spin.display"), []string{"rail", "table"}, nil,
			[]shot.LeftOut{{Key: "spin.display", Why: "as --without asks"}}},
		{"what follows, and cues", turning + panning + bead + clap + pearl, gone("axis.rail"), []string{"table"}, []string{"clap"},
			[]shot.LeftOut{{Key: "axis.rail", Why: "as --without asks"}, {Key: "axis.pan", Why: "it follows rail"},
				{Key: "cue[1]", Why: "bead: it waits for an axis to turn round, and none is left that does"},
				{Key: "cue[3]", Why: "pearl: it waits for rail"}}},
		{"a cue of whichever turns round", "[axis.lift]\nfrom = \"1 mm\"\nto = \"2 mm\"\n" + bead, gone("axis.rail"), []string{"lift"}, []string{"bead"},
			[]shot.LeftOut{{Key: "axis.rail", Why: "as --without asks"}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := decode(t, base+c.text, c.out...)
			var axes, cues []string
			for _, m := range s.Axes {
				axes = append(axes, m.Name)
			}
			for _, q := range s.Cues {
				cues = append(cues, q.Name)
			}
			assert.Equal(t, c.axes, axes)
			assert.Equal(t, c.cues, cues)
			assert.Equal(t, c.told, s.LeftOut)
			assert.Contains(t, s.Title, " (without ")
			again, err := s.Changed(source.Override{Path: "clock.loop", Text: "96 frames", Origin: "test"})
			require.NoError(t, err)
			assert.Equal(t, s.LeftOut, again.LeftOut, "with other values it is still left out")
		})
	}
	s := decode(t, base)
	assert.Empty(t, s.LeftOut)
	assert.NotContains(t, s.Title, "without")
}

// A fault names a cue by its place in the file, whatever was left out before it.
func TestCuesKeepTheirPlaces(t *testing.T) {
	_, err := shot.Decode("f", []byte(base+turning+pearl+clap+"fall = \"3 kg\"\n"), gone("axis.rail"))
	assert.ErrorContains(t, err, `cue[2].fall "3 kg"`)
}

func TestNothingLeft(t *testing.T) {
	_, err := shot.Decode("f", []byte(base), gone("axis.rail"))
	assert.EqualError(t, err, "--without: the shot has no other axis, and nothing would move")
	_, err = shot.Decode("f", []byte(base), gone("axis.pan"))
	assert.EqualError(t, err, "--without: axis.pan is not in the file, and cannot be left out")
	_, err = shot.Decode("f", []byte(base), gone("spin.display"))
	assert.EqualError(t, err, "--without: spin.display is not in the file, and cannot be left out")
}
