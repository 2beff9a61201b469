package track_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
	"seamrail/motion/track"
)

// Each way is a law's own, from rest to rest, and the last leads to the first key.
func TestStations(t *testing.T) {
	spec := track.StationsSpec{Law: law.MinimumJerk(), Keys: []track.Key{
		{Time: exact.New(1, 10), Pos: 10, Hold: exact.New(1, 10)}, {Time: exact.New(3, 10), Pos: 30}, {Time: exact.New(1, 2), Pos: 30},
	}}
	tr, err := track.Stations(exact.Int(1), spec)
	require.NoError(t, err)
	for sec, want := range map[float64]float64{0.1: 10, 0.15: 10, 0.25: 20, 0.3: 30, 0.4: 30, 0.8: 20, 0.9999999: tr.At(0).Pos} {
		assert.InDelta(t, want, tr.At(sec).Pos, 1e-5, "at %g", sec)
	}
	assert.InDelta(t, tr.At(0).Vel, tr.Before(1).Vel, 1e-9)
	spec.Cut = true
	tr, err = track.Stations(exact.Int(1), spec)
	require.NoError(t, err)
	assert.Equal(t, 30.0, tr.Before(1).Pos)
	assert.Equal(t, 10.0, tr.At(0).Pos)
}

func TestStationsRefuse(t *testing.T) {
	one := []track.Key{{Pos: 1}}
	for name, s := range map[string]track.StationsSpec{
		"no key": {Law: law.MinimumJerk()}, "no law": {Keys: one},
		"out of order": {Law: law.MinimumJerk(), Keys: []track.Key{{Time: exact.New(1, 2)}, {Time: exact.New(1, 4), Pos: 1}}},
	} {
		_, err := track.Stations(exact.Int(1), s)
		assert.Error(t, err, name)
	}
	tr, err := track.Stations(exact.Int(1), track.StationsSpec{Keys: one, Law: law.MinimumJerk()})
	require.NoError(t, err)
	assert.Equal(t, track.State{Pos: 1}, tr.At(0.5))
}
