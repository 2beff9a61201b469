package levels_test

import (
	"encoding/csv"
	"errors"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/header"
	"seamrail/export/table/levels"
	"seamrail/motion/base/exact"
	"seamrail/motion/camera/picture"
	"seamrail/motion/fade"
	"seamrail/motion/law"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/scene"
	"seamrail/motion/track"
	"seamrail/motion/verify"
)

// lit is a key of 1000 lm in a cone of 60 degrees a metre away, which goes from nothing
// to full and back over the loop, and a lamp that nobody measured.
func lit(t *trajectory.Trajectory) scene.Scene {
	loop := t.Loop().Real()
	up := &fade.Fade{Loop: loop, Between: law.MinimumJerk(), Keys: []track.Key{{}, {Time: loop.Quo(exact.Int(2)), Pos: 1}}}
	return scene.Scene{Lamps: []scene.Lamp{
		{Name: `key, "left"`, Lumens: scene.Is(1000), Beam: scene.Is(60), Distance: scene.Is(1000), Kelvin: scene.Is(3200),
			Fade: up, Filament: true, Curve: fade.Square},
		{Name: "rim", Bearing: 180, Level: scene.Is(0.5)},
	}}
}

func viewer(t *testing.T, tr *trajectory.Trajectory) picture.Viewer {
	v, err := picture.NewViewer(tr, lit(tr))
	require.NoError(t, err)
	return v
}

func table(t *testing.T, tr *trajectory.Trajectory) string {
	t.Helper()
	return sample.Text(t, tr, func(w io.Writer, v verify.Verdict) error {
		return levels.Write(w, tr, header.Of(tr.Plan(), v), viewer(t, tr))
	})
}

func TestGolden(t *testing.T) {
	sample.Golden(t, "through.csv", table(t, sample.Through(t)))
}

// Rows by the definitions: full at half the loop, where the key gives I = lm/(2 pi (1 -
// cos 30)) on what faces it a metre away; a dial that is the root of the light; and the
// stops that are its logarithm. The other lamp stays as it is.
func TestRows(t *testing.T) {
	tr := sample.Through(t)
	r := csv.NewReader(strings.NewReader(table(t, tr)))
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	frames := tr.Loop().Captured
	require.Len(t, rows, int(1+2*frames))
	at := func(frame int64, lamp int, title string) string {
		for i, name := range rows[0] {
			if name == title {
				return rows[1+2*int(frame)+lamp][i]
			}
		}
		t.Fatal(title)
		return ""
	}
	number := func(frame int64, title string) float64 {
		v, err := strconv.ParseFloat(at(frame, 0, title), 64)
		require.NoError(t, err)
		return v
	}
	assert.Equal(t, `key, "left"`, at(3, 0, "lamp"))
	assert.Equal(t, []string{"0.000000", "inf", "", "0"}, []string{at(0, 0, "level"), at(0, 0, "stops"), at(0, 0, "kelvin"), at(0, 0, "slot")})
	half := frames / 2
	assert.Equal(t, []string{"1.000000", "0.000", "3200", "255", "65535"},
		[]string{at(half, 0, "level"), at(half, 0, "stops"), at(half, 0, "kelvin"), at(half, 0, "slot"), at(half, 0, "slot_pair")})
	assert.InDelta(t, 1000/(2*math.Pi*(1-math.Sqrt(3)/2)), number(half, "lux"), 1e-3)
	quarter := frames / 4
	assert.InDelta(t, 0.5, number(quarter, "level"), 1e-6)
	assert.InDelta(t, 70.711, number(quarter, "dial_percent"), 1e-3)
	assert.InDelta(t, 1, number(quarter, "stops"), 1e-3)
	assert.Equal(t, at(1, 0, "level"), at(frames-1, 0, "level"), "the last frame leads into the first as it came out of it")
	for k := range frames {
		assert.Equal(t, []string{"0.500000", "128", "", "1.000"}, []string{at(k, 1, "level"), at(k, 1, "slot"), at(k, 1, "lux"), at(k, 1, "stops")})
	}
}

type full struct{ room int }

func (f *full) Write(b []byte) (int, error) {
	if f.room -= len(b); f.room < 0 {
		return 0, errors.New("full")
	}
	return len(b), nil
}

func TestErrorsOfTheWriter(t *testing.T) {
	tr := sample.Through(t)
	head := header.Of(tr.Plan(), verify.Check(tr))
	for _, room := range []int{0, 5000} {
		assert.ErrorContains(t, levels.Write(&full{room}, tr, head, viewer(t, tr)), "writing the table of lamps: full")
	}
}
