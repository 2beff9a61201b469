package drive_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/stepplayer"
	"seamrail/export/drive/virtual"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/controller/program"
	"seamrail/motion/spec/rig"
)

// sickTakes is how many sick controllers are tried.
const sickTakes = 240

// No take of a controller that does not do what it was told, or does not tell what
// it does, is called good: it ends as a fault in bounded time, with position unknown.
func TestNoSickControllerIsCalledGood(t *testing.T) {
	kinds := rig.DrivenKinds()
	takes := map[string]func(*rand.Rand, sickness) (*machine, *sickWorld, string){}
	for _, kind := range kinds {
		for _, frames := range []int64{24, 96} {
			takes[fmt.Sprint(kind, frames)] = sickTake(t, kind, frames)
		}
	}
	ends := map[string]int{}
	for n := range sickTakes {
		rng := rand.New(rand.NewPCG(13, uint64(n)))
		kind := kinds[n%len(kinds)]
		all := ofWords
		if kind == rig.StepPlayer {
			all = ofRows
		}
		ill := all[(n/len(kinds))%len(all)]
		m, w, how := takes[fmt.Sprint(kind, []int64{24, 96}[rng.IntN(2)])](rng, ill)
		r := drive.Run(w, m.options)
		name := fmt.Sprintf("%d: %v %s %s: %v %s", n, kind, ill.name, how, r.End, r.Detail)
		require.True(t, r.End.Fault(), name)
		require.False(t, r.Known, name)
		for _, take := range m.read().Takes {
			require.NotEqual(t, "finished", take.End.Outcome, name)
			require.False(t, take.End.Known, name)
		}
		require.Less(t, m.rig.Now(), 2*time.Minute, name)
		ends[r.End.String()]++
	}
	t.Logf("%d sick controllers, none called good: %v", sickTakes, ends)
}

// sickTake makes takes of rounds of so many frames, six seconds of them.
func sickTake(t *testing.T, kind rig.ControllerKind, frames int64) func(*rand.Rand, sickness) (*machine, *sickWorld, string) {
	tr := smooth(t, kind, frames)
	tr.Plan().Rig.Controller.Status = '?' // one that tells nothing of where it stands is believed what it answers
	rounds := 6 * 24 / frames
	var chosen ontime.Chosen
	var source func() drive.Source
	if kind != rig.StepPlayer {
		var err error
		chosen, err = ontime.Choose(tr, rounds)
		require.NoError(t, err)
		source = func() drive.Source { return program.New(tr, chosen.Take) }
	}
	return func(rng *rand.Rand, s sickness) (*machine, *sickWorld, string) {
		w := &sickWorld{since: -1}
		var how string
		m := onVirtualWith(t, tr, rounds, source, func(o *virtual.Options) { how = s.make(rng, w, o) })
		if x := chosen.Expected; kind != rig.StepPlayer {
			m.options.Foretold = func(n int64) float64 { return x.Executed + float64(n-x.Rounds)*x.RoundExecuted }
		}
		w.World, w.rig = m.world, m.rig
		m.w.entered = func(s drive.State) {
			if s == drive.Running {
				w.since = m.rig.Now()
			}
		}
		return m, w, how
	}
}

// The same between, with nothing wrong, is well.
func TestAWellControllerIsCalledGood(t *testing.T) {
	for _, kind := range rig.DrivenKinds() {
		for _, frames := range []int64{24, 96} {
			well := sickness{make: func(_ *rand.Rand, w *sickWorld, _ *virtual.Options) string {
				if kind == rig.StepPlayer {
					w.frame = func(*sickWorld, *stepplayer.Frame) bool { return true }
					w.row = func(*sickWorld, *stepplayer.Frame) {}
					return ""
				}
				w.line = func(_ *sickWorld, text string) string { return text }
				w.told = w.line
				return ""
			}}
			m, w, _ := sickTake(t, kind, frames)(nil, well)
			r := drive.Run(w, m.options)
			require.NoError(t, r.Err(), "%v %d", kind, frames)
		}
	}
}
