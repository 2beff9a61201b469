package drive_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/controller/program"
	"seamrail/motion/spec/rig"
)

// anyFault draws a fault that strikes at any time of a run, and whether the
// board stops by itself on it.
func anyFault(rng *rand.Rand) (f virtual.Fault, stops bool) {
	f = virtual.Fault{
		Kind: virtual.FaultKind(rng.IntN(int(virtual.SleepHost) + 1)),
		At:   time.Duration(rng.IntN(9000)) * time.Millisecond, Nth: int64(1 + rng.IntN(200)),
		Value: 1 + rng.IntN(24), Text: "\xff\x00\xfe\n", For: time.Duration(1+rng.IntN(3000)) * time.Millisecond,
	}
	switch f.Kind {
	case virtual.SlowLink:
		f.Value = 300 << rng.IntN(8)
	case virtual.VanishAfter:
		f.Nth *= 20
	}
	return f, f.Kind == virtual.TripAlarm || f.Kind == virtual.Restart
}

// A thousand passes on the rig of software, with up to three faults each: none
// hangs, none loses a record, and none moves after an alarm or a restart.
func TestAThousandVirtualPasses(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	kinds := rig.DrivenKinds()
	sources := map[rig.ControllerKind]func() drive.Source{}
	for _, kind := range kinds[:2] {
		tr := smooth(t, kind, 48)
		take := chosen(t, tr, 2)
		sources[kind] = func() drive.Source { return program.New(tr, take) }
	}
	ends := map[drive.End]int{}
	for n := range manyPasses() {
		rng := rand.New(rand.NewPCG(11, uint64(n)))
		kind := kinds[n%len(kinds)]
		name := fmt.Sprintf("%d: %v", n, kind)
		stopped := time.Duration(-1)
		slack := 100 * time.Millisecond // until the host has heard
		m := onVirtualWith(t, smooth(t, kind, 48), 2, sources[kind], func(o *virtual.Options) {
			for range rng.IntN(4) {
				f, stops := anyFault(rng)
				if stops && (stopped < 0 || f.At < stopped) {
					stopped = f.At
				}
				if f.Kind == virtual.SleepHost || f.Kind == virtual.SlowLink {
					slack += 5 * time.Second // what is under way takes as long
				}
				o.Faults = append(o.Faults, f)
				name += fmt.Sprintf(" %+v", f)
			}
		})
		opens := time.Duration(-1) // when the controller had greeted
		m.w.entered = func(s drive.State) {
			if s == drive.Reading {
				opens = m.rig.Now()
			}
		}
		m.world.Ask(virtual.Asking{At: time.Minute, Request: drive.Request{Kind: drive.Quit}})
		r := m.run()
		ends[r.End]++
		name += fmt.Sprintf(": %v %s", r.End, r.Detail)
		require.Less(t, m.rig.Now(), 10*time.Minute, name)
		l := m.read()
		require.Equal(t, r.Known, l.Known, name)
		require.Len(t, m.w.passes, len(l.Takes), name)
		for i, take := range l.Takes {
			require.False(t, take.Cut, name)
			require.Equal(t, m.w.passes[i].End.String(), take.End.Outcome, name)
		}
		require.False(t, r.Known && r.End.Fault(), name)
		if opens >= 0 && stopped > opens {
			limit := (stopped + slack).Seconds()
			rec := m.rig.Record()
			for i := range rec.Len() {
				require.Less(t, rec.Span(i).Start, limit, name)
			}
		}
	}
	t.Logf("ends: %v", ends)
	require.Greater(t, len(ends), 8)
}
