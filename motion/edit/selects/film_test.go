package selects_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/cue/syncmark"
	"seamrail/motion/edit/filmed"
	"seamrail/motion/edit/selects"
	"seamrail/motion/plan"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// By hand: rounds of 100, handles of 30, and a film that has 20 frames before what is kept and 10
// after. The round is the film's, whichever is in the middle.
func TestOfAFilm(t *testing.T) {
	p := *sample.With(t, rig.InverseTime).Plan()
	p.Loop.Captured, p.RunUp, p.RunOut, p.Handles = 100, 7, 9, 30
	film := filmed.Film{File: "B.mov", Frames: 130, Zero: -280, By: filmed.ByPicture, Round: 3, In: 20, Out: 120}
	of := func(f filmed.Film) selects.Takes {
		return selects.Of(&p, []selects.Filmed{{Number: 3, Plan: p.Hash(), Rounds: 5, Film: &f}})
	}
	s := of(film).Kept[0]
	require.Equal(t, [6]int64{3, 307, 406, 20, 10, 20}, [6]int64{s.Round, s.First, s.Last, s.Before, s.After, s.Film.In})

	film.By = filmed.Nothing
	s = of(film).Kept[0]
	require.Equal(t, [4]int64{2, 207, 30, 30}, [4]int64{s.Round, s.First, s.Before, s.After}, "as without a film")
	film.By = filmed.ByPicture

	for what, spoil := range map[string]func(f *filmed.Film){
		"no such round":        func(f *filmed.Film) { f.Round = 5 },
		"below the first":      func(f *filmed.Film) { f.Round = -1 },
		"another loop":         func(f *filmed.Film) { f.Out = 121 },
		"before the beginning": func(f *filmed.Film) { f.In, f.Out = -1, 99 },
		"after the end":        func(f *filmed.Film) { f.Frames = 119 },
	} {
		bad := film
		spoil(&bad)
		got := of(bad)
		require.Empty(t, got.Kept, what)
		require.Equal(t, []selects.LeftOut{{3, "what the log says of its film makes no sense: keep it anew"}}, got.LeftOut, what)
	}
}

// marked is a shot with a lamp for a sync mark.
func marked(t *testing.T) (*plan.Plan, *syncmark.Mark) {
	s, err := shot.Decode("f", []byte(`shot = "Fernhollow lantern"
[clock]
capture = "120"
playback = "24"
loop = "144 frames"
[take]
rounds = 3
[rig]
[rig.controller]
kind = "buffered"
[rig.output.lamp]
on = "M8"
late = "4 ms"
[rig.axis.rail]
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
[axis.rail]
move = "there-and-back"
from = "40 mm"
to = "100 mm"
[sync-mark]
with = "lamp"
`), nil)
	require.NoError(t, err)
	p, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	m, err := syncmark.New(p, trajectory.New(p), s)
	require.NoError(t, err)
	return p, m
}

// Where the sync mark has frame 0 elsewhere, neither counts until somebody says which; on both
// sides of what both may be out by.
func TestTheMarkIsAtOdds(t *testing.T) {
	p, m := marked(t)
	made := syncmark.Made{First: -2, Out: 0.001, Saw: true, Frame: 100}
	found := m.In(made, 3)
	of := func(zero float64, change func(f *filmed.Film)) selects.Takes {
		f := filmed.Film{File: "B.mov", Frames: 1 << 20, Zero: zero, Sure: 0.25, By: filmed.ByPicture, Round: 1, In: 500, Out: 500 + p.Loop.Captured}
		if change != nil {
			change(&f)
		}
		return selects.Of(p, []selects.Filmed{{Number: 3, Plan: p.Hash(), Rounds: 3, Film: &f, Marks: &made}}).Synced(m)
	}
	may := found.Out + 0.5
	for _, off := range []float64{0.01, -0.01} {
		require.Len(t, of(found.Frame+may-0.01, nil).Kept, 1)
		require.Len(t, of(found.Frame-may+0.01, nil).Kept, 1)
		sign := 1.0
		if off < 0 {
			sign = -1
		}
		got := of(found.Frame+sign*(may+0.01), nil)
		require.Empty(t, got.Kept)
		require.Contains(t, got.LeftOut[0].Why, "by the sync mark")
		require.Contains(t, got.LeftOut[0].Why, "say which counts, with --trust")
		require.Len(t, got.Synced(m).LeftOut, 1, "and is said once")
		require.Len(t, of(found.Frame+2*may, func(f *filmed.Film) { f.Trusted = true }).Kept, 1)
		require.Len(t, of(found.Frame+2*may, func(f *filmed.Film) { f.By = filmed.ByMark }).Kept, 1)
	}
	made.Saw = false
	require.Len(t, of(0, nil).Kept, 1, "a mark that nobody has seen says nothing")
}
