package track_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/base/exact"
	"seamrail/motion/track"
)

func TestKeysErrors(t *testing.T) {
	at := func(sec int64) track.Key { return track.Key{Time: exact.Int(sec), Pos: float64(sec)} }
	held := func(sec int64, hold exact.Rat) track.Key { k := at(sec); k.Hold = hold; return k }
	fast := func(k track.Key, v float64) track.Key { k.Speed = &v; return k }
	for want, spec := range map[string]track.KeysSpec{
		"0 keys":                          {},
		"key 2: time 1 s must be before":  {Keys: []track.Key{at(0), at(1), at(1)}},
		"leave the key out":               {Keys: []track.Key{at(0), at(6)}},
		"before the end of the loop":      {Keys: []track.Key{at(0), at(7)}},
		"at least 0 s and":                {Keys: []track.Key{at(-1)}},
		"hold for less than 2 s":          {Keys: []track.Key{held(0, exact.Int(2)), at(2)}},
		"the first key of the next round": {Keys: []track.Key{at(1), held(5, exact.Int(2))}},
		"a hold of -1 s":                  {Keys: []track.Key{held(0, exact.Int(-1))}},
		"the one or the other":            {Keys: []track.Key{fast(held(0, exact.Int(1)), 3)}},
		"position NaN":                    {Keys: []track.Key{{Pos: math.NaN()}}},
		"speed +Inf":                      {Keys: []track.Key{fast(at(0), math.Inf(1))}},
		"would carry the axis beyond":     {Monotone: true, Keys: []track.Key{at(0), fast(at(2), -3), at(3)}},
		"their sum must be at most 2.5":   {Monotone: true, Keys: []track.Key{at(0), fast(at(2), 3), at(3)}},
	} {
		_, err := track.Keys(exact.Int(6), spec)
		assert.ErrorContains(t, err, want)
	}
	many := make([]track.Key, 257)
	for i := range many {
		many[i].Time = exact.New(int64(i), 100)
	}
	_, err := track.Keys(exact.Int(6), track.KeysSpec{Keys: many})
	assert.ErrorContains(t, err, "from 1 to 256")
}
