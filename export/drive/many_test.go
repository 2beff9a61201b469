package drive_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/spec/rig"
)

// mishap is one thing that goes wrong at random.
type mishap struct {
	name string
	do   func(p *puppet)
}

var mishaps = []mishap{
	{"nothing", func(*puppet) {}},
	{"vanish", (*puppet).vanish},
	{"mute", func(p *puppet) { p.mute = true }},
	{"alarm", (*puppet).trips},
	{"reset", (*puppet).reset},
	{"garbage", func(p *puppet) { p.raw([]byte("\xff\xfe\n\x01\n\x02\n\x03\n\x04\n")) }},
	{"noise", func(p *puppet) { p.raw([]byte{0x80}) }},
	{"lost answer", func(p *puppet) { p.tamper[p.answers+1] = func(*puppet) {} }},
	{"doubled answer", func(p *puppet) { p.tamper[p.answers+1] = twice }},
	{"error", func(p *puppet) { p.tamper[p.answers+1] = func(p *puppet) { p.says("error:20") } }},
	{"stray error", func(p *puppet) { p.says("error:1") }},
	{"full wire", func(p *puppet) { p.full = true }},
	{"slow wire", func(p *puppet) { p.baud = 1200 }},
	{"small writes", func(p *puppet) { p.trickle = 3 }},
	{"sleep", func(p *puppet) { p.slept = time.Hour; p.stall = p.now.Add(time.Hour) }},
	{"stall", func(p *puppet) { p.stall = p.now.Add(700 * time.Millisecond) }},
	{"stop", func(p *puppet) { p.asked = append(p.asked, drive.Request{Kind: drive.Stop}) }},
	{"quit", func(p *puppet) { p.asked = append(p.asked, drive.Request{Kind: drive.Quit}) }},
	{"finish", func(p *puppet) { p.asked = append(p.asked, drive.Request{Kind: drive.Finish}) }},
	{"resume", func(p *puppet) { p.asked = append(p.asked, drive.Request{Kind: drive.Resume}) }},
}

// manyPasses is how many passes with random faults a test runs.
func manyPasses() int { return many.Times(250, 1000) }

// A thousand passes, each with up to three mishaps at any time: none hangs,
// none loses a record, none moves after an alarm or a reset that it has told,
// and what the log says of position is never more than is known.
func TestAThousandPasses(t *testing.T) {
	many.Long(t)
	ends := map[drive.End]int{}
	for n := range manyPasses() {
		rng := rand.New(rand.NewPCG(7, uint64(n)))
		kind := []rig.ControllerKind{rig.Buffered, rig.Lockstep}[n%2]
		s := stage(t, loop(t, kind))
		var what string
		alarmAt := time.Time{}
		for range rng.IntN(4) {
			m := mishaps[rng.IntN(len(mishaps))]
			at := rng.IntN(6500)
			what += fmt.Sprintf(" %s@%d", m.name, at)
			s.at(at, func() {
				m.do(s.p)
				// One found at the start is cleared by saying where it stands.
				if len(s.w.states) > 1 && alarmAt.IsZero() && (m.name == "alarm" || m.name == "reset") && !s.p.mute {
					alarmAt = maxTime(s.p.now, s.p.stall).Add(100 * time.Millisecond) // the host has heard by then
				}
			})
		}
		// An operator who waits a minute and leaves ends every pause.
		s.at(60_000, func() { s.p.asked = append(s.p.asked, drive.Request{Kind: drive.Quit}) })
		r := s.run()
		ends[r.End]++
		name := fmt.Sprintf("%d: %v%s: %v %s", n, kind, what, r.End, r.Detail)
		require.Less(t, s.p.now.Sub(opened), 2*time.Hour, name)
		l := s.read()
		require.Equal(t, r.Known, l.Known, name)
		require.Len(t, s.w.passes, len(l.Takes), name)
		for i, take := range l.Takes {
			require.False(t, take.Cut, name)
			require.Equal(t, s.w.passes[i].End.String(), take.End.Outcome, name)
		}
		if r.End.Fault() {
			require.False(t, r.Known, name)
		}
		if !alarmAt.IsZero() && s.p.baud > 9600 {
			for _, m := range s.p.moves {
				require.False(t, m.After(alarmAt), "%s: moved %v after", name, m.Sub(alarmAt))
			}
		}
	}
	t.Logf("ends: %v", ends)
	require.Greater(t, len(ends), 10, "many kinds of end were met")
}

// The log of any run, cut anywhere, reads back, and never claims a position
// within a pass.
func TestLogsCutInMidPass(t *testing.T) {
	s, _ := takeOf(t, rig.Buffered, func(s *scene) { s.options.Takes = 2 })
	whole := s.log.Bytes()
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, len(whole)).Draw(t, "cut")
		l, err := takelog.Read(bytes.NewReader(whole[:n]))
		require.NoError(t, err)
		if _, cut := l.LastCut(); cut {
			require.False(t, l.Known)
		}
	})
}
