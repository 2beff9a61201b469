package drive_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/spec/rig"
)

// TestAStopMayOvertakeTheWordToGo: a step player that stands by has nothing to hold. A stop
// that comes before it has been told to go keeps it from being told; one that is on the wire
// before that word is sent anew, and no status from before is taken for rest. So a stop at
// any ms of a gentle move, a jog and a take, its first and last ones among them, ends with
// the rig at rest and its place known; so does a second, with its place not known.
func TestAStopMayOvertakeTheWordToGo(t *testing.T) {
	tr := smooth(t, rig.StepPlayer, 36)
	const frame = 4 // some mm from where the take begins
	for _, x := range []struct {
		name  string
		moves drive.State
		ask   drive.Request
		last  int // ms
	}{
		{"a gentle move", drive.Posing, drive.Request{Kind: drive.Pose, Frame: frame}, 700},
		{"a jog", drive.Ready, drive.Request{Kind: drive.JogHold, Speed: 30, For: 200 * time.Millisecond}, 500},
		{"a take", drive.Running, drive.Request{Kind: drive.Go}, 300},
	} {
		for ms := 0; ms < x.last; ms++ {
			for _, again := range []time.Duration{0, 3 * time.Millisecond} {
				m := onVirtual(t, tr, 1, nil)
				m.options.Takes = 0
				after := time.Duration(ms) * time.Millisecond
				m.w.script = []cue{
					{drive.Ready, 10 * time.Millisecond, x.ask},
					{x.moves, after, drive.Request{Kind: drive.Stop}},
				}
				if again > 0 {
					m.w.script = append(m.w.script, cue{x.moves, after + again, drive.Request{Kind: drive.Stop}})
				}
				for at := 10 * time.Second; at < 13*time.Second; at += time.Second {
					m.world.Ask(virtual.Asking{At: at, Request: drive.Request{Kind: drive.Quit}})
				}
				rested := 0.0 // s since the board was powered, when it said so last
				m.w.entered = func(s drive.State) {
					if s == drive.Resting || s == drive.Ready && len(m.w.script) == 0 {
						rested = m.rig.Now().Seconds()
					}
				}
				r := drive.Run(&narrow{World: m.world}, m.options)
				require.NoError(t, r.Err(), "%s, a stop after %d ms, again %v: %v", x.name, ms, again, m.w.said)
				if rested > 0 {
					require.LessOrEqual(t, m.ended(), rested, "%s, %d ms, again %v: it moves when it is said to rest", x.name, ms, again)
				}
				if again == 0 || r.Known {
					require.True(t, r.Known, "%s, %d ms", x.name, ms)
					require.InDelta(t, m.rig.Place()[0]+tr.TakeState(0, 1, 0).Pos, r.At[0], 0.02, "%s, %d ms", x.name, ms)
				}
			}
		}
	}
}

// ended is when the last motion ended, s since the board was powered.
func (m *machine) ended() (last float64) {
	rec := m.rig.Record()
	for i := range rec.Len() {
		last = max(last, rec.Span(i).End)
	}
	return last
}

// narrow is a port that takes a few bytes at a time, as fast as they are on the wire: what
// is urgent can still go before what is waiting.
type narrow struct {
	*virtual.World
	free time.Time // when it takes more
}

func (n *narrow) Write(p []byte) (int, error) {
	const most, each = 16, 87 * time.Microsecond // bytes, and what one is on the wire
	if n.Now().Before(n.free) {
		return 0, nil
	}
	p = p[:min(len(p), most)]
	n.free = n.Now().Add(time.Duration(len(p)) * each)
	return n.World.Write(p)
}
