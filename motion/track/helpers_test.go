package track_test

import (
	"math"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
	"seamrail/motion/track"
)

const (
	// rounding is the share of a greatest value by which two ways of computing
	// it may differ: some hundred roundings of float64.
	rounding = 1e-12
	// joint is the share of a greatest value by which the two sides of a joint
	// may differ: rounding, times the few thousand by which a short piece next
	// to a long one magnifies it.
	joint = 1e-9
	// samples per loop when looking for something above a stated extreme.
	samples = 2000
)

func named(t require.TestingT, name string) law.Law {
	l, err := law.Named(name)
	require.NoError(t, err)
	return l
}

func must(t require.TestingT) func(*track.Track, error) *track.Track {
	return func(tr *track.Track, err error) *track.Track {
		require.NoError(t, err)
		return tr
	}
}

func laws() *rapid.Generator[law.Law] {
	return rapid.Custom(func(t *rapid.T) law.Law { return rapid.SampledFrom(law.All()).Draw(t, "law") })
}

func share(t *rapid.T, name string) exact.Rat {
	d := rapid.Int64Range(2, 60).Draw(t, name+" parts")
	return exact.New(rapid.Int64Range(1, d-1).Draw(t, name), d)
}

func period(t *rapid.T) exact.Rat {
	return exact.New(rapid.Int64Range(1, 100000).Draw(t, "frames")*1001, 120000)
}

// thereAndBack draws any valid there-and-back track.
func thereAndBack(t *rapid.T) *track.Track {
	p := period(t)
	cycles := rapid.IntRange(1, 5).Draw(t, "cycles")
	part := p.Quo(exact.Int(int64(cycles)))
	from := rapid.Float64Range(-500, 500).Draw(t, "from")
	reach := rapid.Float64Range(0.001, 500).Draw(t, "reach")
	spec := track.ThereAndBackSpec{
		From: from, To: from + reach*float64(1-2*rapid.IntRange(0, 1).Draw(t, "downwards")),
		Out: laws().Draw(t, "out"), Back: laws().Draw(t, "back"),
		Cycles:    cycles,
		OutShare:  share(t, "out share"),
		DwellFar:  part.Mul(share(t, "far")).Mul(exact.New(int64(rapid.IntRange(0, 1).Draw(t, "rests far")), 2)),
		DwellNear: part.Mul(share(t, "near")).Mul(exact.New(int64(rapid.IntRange(0, 1).Draw(t, "rests near")), 2)),
		Phase:     share(t, "phase"),
	}
	return must(t)(track.ThereAndBack(p, spec))
}

// keyed draws a closed curve with holds and stated speeds among its keys.
func keyed(t *rapid.T, monotone bool) (*track.Track, track.KeysSpec) {
	p := period(t)
	n := rapid.Int64Range(1, 12).Draw(t, "keys")
	spec := track.KeysSpec{Monotone: monotone}
	if rapid.Bool().Draw(t, "advances") {
		spec.Advance = exact.Int(360 * rapid.Int64Range(-3, 3).Draw(t, "turns"))
	}
	for i := range n {
		k := track.Key{
			Time: p.Mul(exact.New(4*i+rapid.Int64Range(0, 2).Draw(t, "late"), 4*n)),
			Pos:  rapid.Float64Range(-200, 200).Draw(t, "pos"),
		}
		switch rapid.IntRange(0, 4).Draw(t, "kind") {
		case 0:
			k.Hold = p.Quo(exact.Int(8 * n))
		case 1:
			v := 0.0
			if !monotone {
				v = rapid.Float64Range(-50, 50).Draw(t, "speed")
			}
			k.Speed = &v
		}
		spec.Keys = append(spec.Keys, k)
	}
	return must(t)(track.Keys(p, spec)), spec
}

// staircase draws a monotone curve through keys that all rise, by very
// different amounts after very different times, and on into the next round.
func staircase(t *rapid.T) (*track.Track, track.KeysSpec) {
	spec := track.KeysSpec{Monotone: true}
	size := rapid.SampledFrom([]int64{1, 2, 7, 30, 200, 1000})
	at, pos := int64(0), int64(0)
	for range rapid.IntRange(2, 8).Draw(t, "keys") {
		k := track.Key{Time: exact.New(at, 100), Pos: float64(pos)}
		wait := size.Draw(t, "wait")
		if rapid.IntRange(0, 5).Draw(t, "holds") == 0 {
			k.Hold = exact.New(wait, 300)
		}
		spec.Keys = append(spec.Keys, k)
		at += wait
		pos += size.Draw(t, "rise")
	}
	spec.Advance = exact.Int(pos)
	return must(t)(track.Keys(exact.New(at, 100), spec)), spec
}

func anyTrack(t *rapid.T) *track.Track {
	switch rapid.IntRange(0, 3).Draw(t, "kind of track") {
	case 0:
		return thereAndBack(t)
	case 1:
		tr, _ := keyed(t, false)
		return tr
	case 2:
		tr, _ := keyed(t, true)
		return tr
	}
	turns := share(t, "turns").Mul(exact.Int(rapid.SampledFrom([]int64{-7, -1, 1, 5}).Draw(t, "times")))
	return must(t)(track.Turn(period(t), track.TurnSpec{Start: rapid.Float64Range(0, 360).Draw(t, "start"), Turns: turns, Law: laws().Draw(t, "law")}))
}

func within(t require.TestingT, want, got, slack float64, what string, args ...any) {
	if math.Abs(want-got) > slack {
		require.Failf(t, "too far apart", what+": want %v, got %v, which differ by %g, more than %g", append(args, want, got, math.Abs(want-got), slack)...)
	}
}
