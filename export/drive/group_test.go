package drive_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive/takelog"
	"seamrail/motion/spec/rig"
)

// Every pass of a group comes to its start from the same side, by as much of its own way,
// wherever the axis was before; the log says from which, and where it then stood. A take of
// no group goes straight there and says nothing of it.
func TestPassesOfAGroupComeFromOneSide(t *testing.T) {
	for _, kind := range rig.DrivenKinds() {
		tr := smooth(t, kind, 48)
		start := tr.TakeState(0, 1, 0).Pos
		for _, group := range []string{"", "plates"} {
			m := onVirtual(t, tr, 1, nil)
			m.options.Group, m.options.Pass, m.options.Takes = group, "light", 2
			require.NoError(t, m.run().Err())
			// On its own way, 100 mm above the start, it is brought a millimetre up and back before
			// each pass; without a group nothing moves between two passes.
			moved := turnsBetween(m, start)
			if group == "" {
				assert.Zero(t, moved, kind)
			} else {
				assert.Equal(t, 2, moved, "%s: before each pass", kind)
			}
			log, err := takelog.Walk(bytes.NewReader(m.log.Bytes()), func(k takelog.Take) error {
				s := k.Begin.Start
				if group == "" {
					assert.Nil(t, s)
					return nil
				}
				require.NotNil(t, s, kind)
				require.Len(t, s.Axes, 1)
				a := s.Axes[0]
				assert.Equal(t, takelog.FromAbove, a.From)
				assert.InDelta(t, start, a.Planned, 1e-9)
				if a.Stood != nil {
					assert.InDelta(t, start, *a.Stood, 1.0/80)
				}
				assert.Equal(t, "plates", k.Begin.Group)
				return nil
			})
			require.NoError(t, err)
			assert.Equal(t, 2, log.Count)
		}
	}
}

// turnsBetween counts how often the rail went up to a millimetre above its start and turned
// back there.
func turnsBetween(m *machine, start float64) (n int) {
	rec := m.rig.Record()
	top := 0.0 // above the start, since it last stood there
	for i := range rec.Len() {
		up := rec.At(rec.Span(i).End)[0] + m.shift() - start
		switch {
		case up > 0.01:
			top = max(top, up)
		case top > 0:
			if top < 1.1 && top > 0.9 {
				n++
			}
			top = 0
		}
	}
	return n
}
